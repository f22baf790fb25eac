import { Failure } from '../failure.js';
import type { PeopleDetector } from './peopleDetector.js';
import { loadPoseModel, type PoseModel, type PoseModelOptions } from './poseModel.js';
import type { PoseModelName } from './track.js';
import type { AnswerMessage, InferenceJob, InferenceResult, JobMessage } from './workerMessages.js';

/**
 * Answers jobs one after the other, with networks of its own, each loaded when it is first asked for.
 *
 * @returns what to call with every message that arrives.
 */
export function answerJobs(
  send: (message: AnswerMessage) => void,
  options: PoseModelOptions = {},
): (message: JobMessage) => void {
  let detector: Promise<PeopleDetector> | null = null;
  const models = new Map<PoseModelName, Promise<PoseModel>>();

  const answer = async (job: InferenceJob): Promise<InferenceResult> => {
    switch (job.kind) {
      case 'look':
        detector ??= import('./peopleDetector.js').then(({ loadPeopleDetector }) => loadPeopleDetector());
        return (await detector).detect(job.picture);
      case 'measure': {
        const model = models.get(job.model) ?? loadPoseModel(job.model, options);
        models.set(job.model, model);
        return [await (await model).infer(job.crop)];
      }
    }
  };

  // Jobs wait for each other: the networks answer asynchronously, and two at once would share tensors.
  let previous: Promise<void> = Promise.resolve();
  return ({ id, job }) => {
    previous = previous.then(async () => {
      const start = performance.now();
      let message: AnswerMessage;
      try {
        const result = await answer(job);
        message = { id, kind: 'result', result, milliseconds: performance.now() - start };
      } catch (error) {
        message = describe(id, error);
      }
      send(message);
    });
  };
}

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
