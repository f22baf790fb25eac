import { availableParallelism } from 'node:os';
import { Failure } from '../failure.js';
import type { Backend } from './accelerator.js';
import { hostOf, type InferenceHost, type StartHost } from './inferenceHost.js';
import type { AnswerMessage, InferenceJob, InferenceResult } from './workerMessages.js';

/** Inference workers that answer jobs in any order, each job independently of the others. */
export interface WorkerPool {
  readonly workers: number;
  /** Time the workers spent answering so far, summed over them, milliseconds. */
  busyMilliseconds(): number;
  /** @throws Failure as the worker met it; Error where a job ended its worker twice. */
  run(job: InferenceJob): Promise<InferenceResult>;
  /**
   * Puts fresh workers in the place of those on the processor, without the networks that these have loaded: the memory
   * of WebAssembly never shrinks. Graphics processes stay, since starting one takes seconds. Call it between passes,
   * while no job is open.
   */
  renew(): Promise<void>;
  /** Ends every worker; jobs still open are rejected. */
  close(): Promise<void>;
}

interface Pending {
  readonly id: number;
  readonly job: InferenceJob;
  readonly resolve: (result: InferenceResult) => void;
  readonly reject: (error: unknown) => void;
  /** How many workers this job has ended. */
  deaths: number;
}

/** A place for one worker, whichever process holds it at the time. */
interface Seat {
  host: InferenceHost;
  readonly open: Map<number, Pending>;
}

interface Pool {
  readonly start: StartHost;
  readonly waiting: Pending[];
  readonly seats: Seat[];
  nextId: number;
  busyMilliseconds: number;
  deathsInARow: number;
  closed: boolean;
}

/** A second job waits inside each worker, so that it never idles while the answer travels. */
const JOBS_IN_A_WORKER = 2;

/** Processes that share the graphics adapter: each spends its time handing over work, so that one does not fill it. */
const GRAPHICS_PROCESSES = 4;

/** As many workers as the machine has cores, within reason: each needs up to 200 MB. */
export function defaultWorkers(backend: Backend = 'processor'): number {
  const cores = Math.max(1, availableParallelism());
  return Math.min(backend === 'processor' ? 8 : GRAPHICS_PROCESSES, cores);
}

/**
 * Starts the inference workers: a process each.
 *
 * @param start how each is started; by default as the backend needs it.
 * @throws Failure 'installation' where their compiled program is missing.
 */
export function startWorkerPool(
  workers: number,
  backend: Backend = 'processor',
  start: StartHost = hostOf(backend),
): WorkerPool {
  const pool: Pool = {
    ...{ start, waiting: [], seats: [], nextId: 0, busyMilliseconds: 0, deathsInARow: 0 },
    closed: false,
  };
  for (let index = 0; index < workers; index++) addSeat(pool);
  return {
    workers,
    busyMilliseconds: () => pool.busyMilliseconds,
    run: (job) => enqueue(pool, job),
    async renew() {
      if (pool.closed || backend !== 'processor') return;
      const former = pool.seats.map((seat) => seat.host);
      for (const seat of pool.seats) seat.host = startHost(pool, seat);
      await Promise.all(former.map((host) => host.end()));
    },
    close: () => close(pool),
  };
}

function addSeat(pool: Pool): void {
  const seat = { open: new Map<number, Pending>() } as Seat;
  seat.host = startHost(pool, seat);
  pool.seats.push(seat);
}

function startHost(pool: Pool, seat: Seat): InferenceHost {
  const host = pool.start({
    onAnswer: (message) => receive(pool, seat, message),
    onEnd: (cause) => replaceDead(pool, seat, host, cause),
  });
  return host;
}

function enqueue(pool: Pool, job: InferenceJob): Promise<InferenceResult> {
  return new Promise((resolve, reject) => {
    if (pool.closed) {
      reject(new Error('the worker pool is closed'));
      return;
    }
    pool.waiting.push({ id: pool.nextId++, job, resolve, reject, deaths: 0 });
    dispatch(pool);
  });
}

/** Hands waiting jobs out: a first one to every worker before any gets a second. */
function dispatch({ waiting, seats }: Pool): void {
  for (let depth = 1; depth <= JOBS_IN_A_WORKER; depth++) {
    for (const seat of seats) {
      if (seat.open.size >= depth) continue;
      const pending = waiting.shift();
      if (pending === undefined) return;
      seat.open.set(pending.id, pending);
      seat.host.post({ id: pending.id, job: pending.job });
    }
  }
}

function receive(pool: Pool, seat: Seat, message: AnswerMessage): void {
  const pending = seat.open.get(message.id);
  if (pending === undefined) return;
  seat.open.delete(message.id);
  pool.deathsInARow = 0;
  if (message.kind === 'result') pool.busyMilliseconds += message.milliseconds;
  settle(pending, message);
  dispatch(pool);
}

function settle(pending: Pending, message: AnswerMessage): void {
  if (message.kind === 'result') pending.resolve(message.result);
  else if (message.kind === 'failure')
    pending.reject(new Failure(message.failureKind, message.message, message.remedy));
  else pending.reject(new Error(`inference failed: ${message.message}`));
}

/** Puts a fresh worker in the place of one that ended by itself, and asks its open jobs again. */
function replaceDead(pool: Pool, seat: Seat, host: InferenceHost, cause: unknown): void {
  if (pool.closed || seat.host !== host) return;
  pool.deathsInARow += 1;
  takeBack(pool, seat, cause);
  // Workers that end without ever answering would be started for ever.
  if (pool.deathsInARow > 2 * pool.seats.length + 1) {
    giveUp(pool, cause);
    return;
  }
  seat.host = startHost(pool, seat);
  dispatch(pool);
}

/** Puts the open jobs of a worker that ended back in front of the queue, but for one that has now ended two. */
function takeBack(pool: Pool, seat: Seat, cause: unknown): void {
  // The oldest open job is the one the worker was answering; the others only waited behind it.
  const orphans = [...seat.open.values()];
  seat.open.clear();
  const [suspect, ...innocent] = orphans;
  if (suspect !== undefined && ++suspect.deaths > 1) {
    suspect.reject(new Error('an inference worker died twice on the same picture', { cause }));
    pool.waiting.unshift(...innocent);
  } else {
    pool.waiting.unshift(...orphans);
  }
}

function giveUp(pool: Pool, cause: unknown): void {
  pool.closed = true;
  for (const pending of pool.waiting.splice(0))
    pending.reject(new Error('the inference workers do not keep running', { cause }));
}

async function close(pool: Pool): Promise<void> {
  pool.closed = true;
  const open = [...pool.waiting, ...pool.seats.flatMap((seat) => [...seat.open.values()])];
  pool.waiting.length = 0;
  for (const pending of open) pending.reject(new Error('the worker pool was closed'));
  await Promise.all(pool.seats.map((seat) => seat.host.end()));
}
