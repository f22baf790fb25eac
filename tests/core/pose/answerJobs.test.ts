import { describe, expect, test, vi } from 'vitest';
import { answerJobs } from '../../../core/pose/answerJobs.js';
import { DETECTOR_SIZE, MODEL_SIZE } from '../../../core/pose/modelFacts.js';
import type { AnswerMessage, InferenceJob } from '../../../core/pose/workerMessages.js';

vi.setConfig({ testTimeout: 60_000 });

const SIZE = MODEL_SIZE['movenet-lightning'];
const picture = (side: number, value = 128) => new Uint8Array(side * side * 3).fill(value);
const measure = (crop: Uint8Array): InferenceJob => ({ kind: 'measure', model: 'movenet-lightning', crop });

/** The answers to some jobs, handed over at once, in the order in which they come. */
function answersTo(jobs: readonly InferenceJob[]): Promise<readonly AnswerMessage[]> {
  return new Promise((settle) => {
    const answers: AnswerMessage[] = [];
    const onJob = answerJobs((message) => {
      answers.push(message);
      if (answers.length === jobs.length) settle(answers);
    });
    jobs.forEach((job, id) => void onJob({ id, job }));
  });
}

describe('what answers the jobs of one worker', () => {
  test('answers them in order, the same job always alike, and goes on after one that fails', async () => {
    const answers = await answersTo([
      measure(picture(SIZE)),
      measure(picture(10)),
      measure(picture(SIZE)),
      { kind: 'look', picture: picture(DETECTOR_SIZE) },
    ]);
    expect(answers.map(({ id }) => id)).toEqual([0, 1, 2, 3]);
    const [first, wrong, again, look] = answers;
    if (first?.kind !== 'result' || again?.kind !== 'result' || look?.kind !== 'result') {
      throw new Error('a job was not answered');
    }
    expect(first.result[0]).toHaveLength(17 * 3);
    expect(again.result).toEqual(first.result);
    expect(first.milliseconds).toBeGreaterThan(0);
    expect(wrong).toMatchObject({ kind: 'error', message: expect.stringContaining(`${SIZE} × ${SIZE}`) });
    // Nobody is in a grey picture.
    expect(look.result).toEqual([]);
  });
});
