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

interface Seat {
  host: InferenceHost;
  readonly open: Map<number, Pending>;
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
  const waiting: Pending[] = [];
  const seats: Seat[] = [];
  let nextId = 0;
  let busy = 0;
  let closed = false;
  let deathsInARow = 0;

  const startHost = (seat: Seat): InferenceHost => {
    const host = start({
      onAnswer: (message) => receive(seat, message),
      onEnd: (cause) => replaceDead(seat, host, cause),
    });
    return host;
  };

  const receive = (seat: Seat, message: AnswerMessage): void => {
    const pending = seat.open.get(message.id);
    if (pending === undefined) return;
    seat.open.delete(message.id);
    deathsInARow = 0;
    if (message.kind === 'result') {
      busy += message.milliseconds;
      pending.resolve(message.result);
    } else if (message.kind === 'failure') {
      pending.reject(new Failure(message.failureKind, message.message, message.remedy));
    } else {
      pending.reject(new Error(`inference failed: ${message.message}`));
    }
    dispatch();
  };

  const replaceDead = (seat: Seat, host: InferenceHost, cause: unknown): void => {
    if (closed || seat.host !== host) return;
    deathsInARow += 1;
    // The oldest open job is the one the worker was answering; the others only waited behind it.
    const orphans = [...seat.open.values()];
    seat.open.clear();
    const [suspect, ...innocent] = orphans;
    if (suspect !== undefined && ++suspect.deaths > 1) {
      suspect.reject(new Error('an inference worker died twice on the same picture', { cause }));
      waiting.unshift(...innocent);
    } else {
      waiting.unshift(...orphans);
    }
    if (deathsInARow > 2 * workers + 1) {
      // Workers that end without ever answering would be started for ever.
      closed = true;
      for (const pending of waiting.splice(0)) {
        pending.reject(new Error('the inference workers do not keep running', { cause }));
      }
      return;
    }
    seat.host = startHost(seat);
    dispatch();
  };

  const dispatch = (): void => {
    for (let depth = 1; depth <= JOBS_IN_A_WORKER; depth++) {
      for (const seat of seats) {
        if (seat.open.size >= depth) continue;
        const pending = waiting.shift();
        if (pending === undefined) return;
        seat.open.set(pending.id, pending);
        seat.host.post({ id: pending.id, job: pending.job });
      }
    }
  };

  for (let index = 0; index < workers; index++) {
    const seat = { open: new Map<number, Pending>() } as Seat;
    seat.host = startHost(seat);
    seats.push(seat);
  }

  return {
    workers,
    busyMilliseconds: () => busy,
    run: (job) =>
      new Promise((resolve, reject) => {
        if (closed) {
          reject(new Error('the worker pool is closed'));
          return;
        }
        waiting.push({ id: nextId++, job, resolve, reject, deaths: 0 });
        dispatch();
      }),
    async renew() {
      if (closed || backend !== 'processor') return;
      const former = seats.map((seat) => seat.host);
      for (const seat of seats) seat.host = startHost(seat);
      await Promise.all(former.map((host) => host.end()));
    },
    async close() {
      closed = true;
      const open = [...waiting, ...seats.flatMap((seat) => [...seat.open.values()])];
      waiting.length = 0;
      for (const pending of open) pending.reject(new Error('the worker pool was closed'));
      await Promise.all(seats.map((seat) => seat.host.end()));
    },
  };
}
