import { Failure } from '../../core/failure.js';
import { answerJobs } from '../../core/pose/answerJobs.js';
import type { AnswerMessage, InferenceResult } from '../../core/pose/workerMessages.js';
import type { WorkerPool } from '../../core/pose/workerPool.js';

/*
 * Takes the place of core/pose/workerPool.ts (by `vi.mock`) in tests that read many small films: the same networks, in
 * the test's own process and loaded once, where starting the usual processes costs seconds for each film.
 */

const open = new Map<number, (message: AnswerMessage) => void>();
const onJob = answerJobs((message) => open.get(message.id)?.(message), { native: true });
let jobs = 0;

export const defaultWorkers = () => 1;

export function startWorkerPool(): WorkerPool {
  let closed = false;
  return {
    workers: 1,
    busyMilliseconds: () => 0,
    renew: async () => {},
    close: async () => {
      closed = true;
    },
    run: (job) =>
      new Promise<InferenceResult>((settle, fail) => {
        const id = jobs++;
        open.set(id, (message) => {
          open.delete(id);
          if (closed) fail(new Error('the pool is closed'));
          else if (message.kind === 'result') settle(message.result);
          else if (message.kind === 'failure')
            fail(new Failure(message.failureKind, message.message, message.remedy));
          else fail(new Error(message.message));
        });
        onJob({ id, job });
      }),
  };
}
