/** The program of one inference thread: answers jobs one after the other, with its own copy of the networks. */
import { parentPort } from 'node:worker_threads';
import { Failure } from '../failure.js';
import { loadPeopleDetector, type PeopleDetector } from './peopleDetector.js';
import { loadPoseModel, type PoseModel } from './poseModel.js';
import type { PoseModelName } from './track.js';
import type { AnswerMessage, InferenceJob, InferenceResult, JobMessage } from './workerMessages.js';

let detector: Promise<PeopleDetector> | null = null;
const models = new Map<PoseModelName, Promise<PoseModel>>();

async function answer(job: InferenceJob): Promise<InferenceResult> {
  switch (job.kind) {
    case 'look':
      detector ??= loadPeopleDetector();
      return (await detector).detect(job.picture);
    case 'measure': {
      const model = models.get(job.model) ?? loadPoseModel(job.model);
      models.set(job.model, model);
      return [(await model).infer(job.crop)];
    }
  }
}

const port = parentPort;
if (port === null) throw new Error('this file is the program of a worker thread');

// Jobs wait for each other: the people detector answers asynchronously, and two at once would share tensors.
let previous: Promise<void> = Promise.resolve();
port.on('message', ({ id, job }: JobMessage) => {
  previous = previous.then(async () => {
    const start = performance.now();
    let message: AnswerMessage;
    try {
      const result = await answer(job);
      message = { id, kind: 'result', result, milliseconds: performance.now() - start };
    } catch (error) {
      message = describe(id, error);
    }
    port.postMessage(message);
  });
});

function describe(id: number, error: unknown): AnswerMessage {
  if (error instanceof Failure) {
    const { kind, message, remedy } = error;
    return { id, kind: 'failure', failureKind: kind, message, remedy };
  }
  return {
    id,
    kind: 'error',
    message: error instanceof Error ? (error.stack ?? error.message) : String(error),
  };
}
