import { describe, expect, test } from 'vitest';
import { KEYPOINT_COUNT, KEYPOINT_INDEX } from '../../../core/pose/keypoints.js';
import { largestDifference, verifiedPool } from '../../../core/pose/verifiedPool.js';
import type { InferenceJob } from '../../../core/pose/workerMessages.js';
import type { WorkerPool } from '../../../core/pose/workerPool.js';

/** A body with a trunk of 0.4 of the picture. */
function body(score: number, shift = 0): Float32Array {
  const points = new Float32Array(KEYPOINT_COUNT * 3).fill(0.5);
  for (let keypoint = 0; keypoint < KEYPOINT_COUNT; keypoint++) points[keypoint * 3 + 2] = score;
  for (const side of ['left', 'right'] as const) {
    points[KEYPOINT_INDEX[`${side}-shoulder`] * 3 + 1] = 0.3;
    points[KEYPOINT_INDEX[`${side}-hip`] * 3 + 1] = 0.7;
  }
  points[KEYPOINT_INDEX['left-wrist'] * 3] = 0.5 + shift;
  return points;
}

function pool(answer: (job: InferenceJob) => Float32Array): WorkerPool & { asked: number; closed: boolean } {
  return {
    asked: 0,
    closed: false,
    workers: 1,
    busyMilliseconds: () => 0,
    async run(job) {
      this.asked += 1;
      return [answer(job)];
    },
    async renew() {},
    async close() {
      this.closed = true;
    },
  };
}

const MEASURE: InferenceJob = { kind: 'measure', model: 'movenet-thunder', crop: new Uint8Array(0) };

describe('the largest difference of two readings', () => {
  test('is a share of the trunk', () => {
    expect(largestDifference(body(0.9, 0.004), body(0.9))).toBeCloseTo(0.01, 5);
  });

  test('is unknown where too little is seen', () => {
    expect(largestDifference(body(0.1, 0.3), body(0.9))).toBeNull();
  });
});

describe('a pool held against the processor', () => {
  test('asks the processor until one picture with a lifter agreed, and lets it go then', async () => {
    const processor = pool(() => body(0.9));
    const adapter = pool(() => body(0.9, 0.001));
    const verified = verifiedPool(adapter, processor);
    for (let picture = 0; picture < 9; picture++) await verified.run(MEASURE);
    expect(processor).toMatchObject({ asked: 1, closed: true });
    expect(adapter.asked).toBe(9);
  });

  test('asks ever more rarely while nobody is seen', async () => {
    const processor = pool(() => body(0.1));
    const verified = verifiedPool(
      pool(() => body(0.1)),
      processor,
    );
    for (let picture = 0; picture < 100; picture++) await verified.run(MEASURE);
    expect(processor).toMatchObject({ asked: 7, closed: false });
    await verified.close();
    expect(processor.closed).toBe(true);
  });

  test('refuses answers that differ by more than 1 % of the trunk', async () => {
    const verified = verifiedPool(
      pool(() => body(0.9, 0.02)),
      pool(() => body(0.9)),
    );
    await expect(verified.run(MEASURE)).rejects.toThrow('5.0 % of the trunk');
  });

  test('does not compare the coarse pass', async () => {
    const processor = pool(() => body(0.9));
    const verified = verifiedPool(
      pool(() => body(0.9, 0.02)),
      processor,
    );
    await verified.run({ kind: 'look', picture: new Uint8Array(0) });
    expect(processor.asked).toBe(0);
  });
});
