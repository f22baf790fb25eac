import { existsSync } from 'node:fs';
import { availableParallelism } from 'node:os';
import { fileURLToPath } from 'node:url';
import { Worker } from 'node:worker_threads';
import { Failure } from '../failure.js';
import type { AnswerMessage, InferenceJob, InferenceResult } from './workerMessages.js';

/** Inference threads that answer jobs in any order, each job independently of the others. */
export interface WorkerPool {
  readonly workers: number;
  /** Time the threads spent answering so far, summed over them, milliseconds. */
  busyMilliseconds(): number;
  /** @throws Failure as the thread met it; Error where a job ended its thread twice. */
  run(job: InferenceJob): Promise<InferenceResult>;
  /** Ends every thread; jobs still open are rejected. */
  close(): Promise<void>;
}

interface Pending {
  readonly id: number;
  readonly job: InferenceJob;
  readonly resolve: (result: InferenceResult) => void;
  readonly reject: (error: unknown) => void;
  /** How many threads this job has ended. */
  deaths: number;
}

interface Seat {
  worker: Worker;
  readonly open: Map<number, Pending>;
}

/** A second job waits inside each thread, so that it never idles while the answer travels. */
const JOBS_IN_A_THREAD = 2;

/** As many threads as the machine has cores, within reason: each needs up to 200 MB. */
export function defaultWorkers(): number {
  return Math.min(8, Math.max(1, availableParallelism()));
}

/**
 * Starts the inference threads.
 *
 * @param program file the threads run; the compiled worker by default, also from source.
 * @throws Failure 'installation' where the compiled worker is missing.
 */
export function startWorkerPool(workers: number, program: string = workerProgram()): WorkerPool {
  if (!existsSync(program)) {
    throw new Failure(
      'installation',
      `${program} is missing.`,
      'Run `npm run build` in the program’s folder.',
    );
  }
  const waiting: Pending[] = [];
  const seats: Seat[] = [];
  let nextId = 0;
  let busy = 0;
  let closed = false;
  let deathsInARow = 0;

  const startWorker = (seat: Seat): Worker => {
    const worker = new Worker(program);
    worker.on('message', (message: AnswerMessage) => {
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
    });
    let cause: unknown = null;
    worker.on('error', (error) => {
      cause = error;
    });
    worker.on('exit', (code) => replaceDead(seat, worker, cause ?? new Error(`exit code ${code}`)));
    return worker;
  };

  const replaceDead = (seat: Seat, worker: Worker, cause: unknown): void => {
    if (closed || seat.worker !== worker) return;
    deathsInARow += 1;
    // The oldest open job is the one the thread was answering; the others only waited behind it.
    const orphans = [...seat.open.values()];
    seat.open.clear();
    const [suspect, ...innocent] = orphans;
    if (suspect !== undefined && ++suspect.deaths > 1) {
      suspect.reject(new Error('an inference thread died twice on the same picture', { cause }));
      waiting.unshift(...innocent);
    } else {
      waiting.unshift(...orphans);
    }
    if (deathsInARow > 2 * workers + 1) {
      // Threads that end without ever answering would be started for ever.
      closed = true;
      for (const pending of waiting.splice(0)) {
        pending.reject(new Error('the inference threads do not keep running', { cause }));
      }
      return;
    }
    seat.worker = startWorker(seat);
    dispatch();
  };

  const dispatch = (): void => {
    for (let depth = 1; depth <= JOBS_IN_A_THREAD; depth++) {
      for (const seat of seats) {
        if (seat.open.size >= depth) continue;
        const pending = waiting.shift();
        if (pending === undefined) return;
        seat.open.set(pending.id, pending);
        seat.worker.postMessage({ id: pending.id, job: pending.job });
      }
    }
  };

  for (let index = 0; index < workers; index++) {
    const seat = { open: new Map<number, Pending>() } as Seat;
    seat.worker = startWorker(seat);
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
    async close() {
      closed = true;
      const open = [...waiting, ...seats.flatMap((seat) => [...seat.open.values()])];
      waiting.length = 0;
      for (const pending of open) pending.reject(new Error('the worker pool was closed'));
      await Promise.all(seats.map((seat) => seat.worker.terminate()));
    },
  };
}

function workerProgram(): string {
  const fromHere = import.meta.url.endsWith('.ts') ? '../../dist/core/pose/worker.js' : './worker.js';
  return fileURLToPath(new URL(fromHere, import.meta.url));
}
