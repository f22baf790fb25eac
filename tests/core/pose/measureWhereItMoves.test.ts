import { describe, expect, test } from 'vitest';
import type { TimedFrame } from '../../../core/media/film.js';
import { KEYPOINT_INDEX } from '../../../core/pose/keypoints.js';
import { measureWhereItMoves } from '../../../core/pose/measureWhereItMoves.js';
import { samplingRules } from '../../../core/pose/sampling.js';
import { linkSightings } from '../../../core/pose/sightings.js';
import type { WorkerPool } from '../../../core/pose/workerPool.js';
import { looksAt, person } from './inventedPeople.js';

/** How far the forearms are up: still for 3 s, up in 3 s, still for 3 s, down in 1 s, still. */
const raisedAt = (seconds: number) => {
  if (seconds < 3) return 0;
  if (seconds < 6) return (seconds - 3) / 3;
  if (seconds < 9) return 1;
  return Math.max(0, 10 - seconds);
};
const LENGTH = 13;
/** Both forearms bend by a right angle. */
const bodyAt = (seconds: number) => {
  const points = person({ x: 500, feetY: 950, height: 900 });
  const bend = (raisedAt(seconds) * Math.PI) / 2;
  for (const [elbow, wrist] of [
    [KEYPOINT_INDEX['left-elbow'], KEYPOINT_INDEX['left-wrist']],
    [KEYPOINT_INDEX['right-elbow'], KEYPOINT_INDEX['right-wrist']],
  ] as const) {
    points[wrist * 3] = points[elbow * 3]! + 135 * Math.sin(bend);
    points[wrist * 3 + 1] = points[elbow * 3 + 1]! + 135 * Math.cos(bend);
  }
  return points;
};

/** Frames whose colour is their number, so that an invented model can tell them apart. */
async function* frames(rate: number): AsyncGenerator<TimedFrame> {
  for (let index = 0; index < LENGTH * rate; index++) {
    const pixels = Uint8Array.from({ length: 12 }, (_, at) => [index % 256, index >> 8, 0][at % 3]!);
    yield { seconds: index / rate, width: 2, height: 2, pixels };
  }
}

async function measure(rate: number, delay: () => number) {
  const pool: WorkerPool = {
    workers: 2,
    busyMilliseconds: () => 0,
    renew: async () => {},
    close: async () => {},
    run: async (job) => {
      if (job.kind !== 'measure') throw new Error('only measuring is asked for');
      const middle = (128 * 256 + 128) * 3;
      const index = job.crop[middle]! + 256 * job.crop[middle + 1]!;
      await new Promise((settle) => setTimeout(settle, delay()));
      return [bodyAt(index / rate).map((value, at) => (at % 3 === 2 ? value : value / 1000))];
    },
  };
  const [trail] = linkSightings(looksAt(LENGTH, (seconds) => [bodyAt(seconds)]));
  return measureWhereItMoves(frames(rate), pool, {
    model: 'movenet-thunder',
    window: { left: 0, top: 0, width: 1000, height: 1000 },
    regionAt: () => ({ centerX: 500, centerY: 500, side: 1000 }),
    minimumIntervalSeconds: 1 / 30,
    sparseIntervalSeconds: 0.1,
    rules: samplingRules(trail!, 1),
    onFrame: () => {},
  });
}

describe('sampling where it moves', () => {
  test('every frame of a move and of the stillness beside it, a third of long stillness', async () => {
    const { frames: measured, framesInFilm } = await measure(30, () => 0);
    expect(framesInFilm).toBe(LENGTH * 30);
    const share = (from: number, to: number) =>
      measured.filter((frame) => frame.seconds >= from && frame.seconds < to).length / ((to - from) * 30);
    // Up from 3 to 6 s and down from 9 to 10 s.
    expect(share(2, 7)).toBeCloseTo(1, 9);
    expect(share(8, 11)).toBeCloseTo(1, 9);
    expect(share(0, 1.4)).toBeCloseTo(1 / 3, 1);
    expect(share(11.6, 13)).toBeCloseTo(1 / 3, 1);
  });

  test('the frames come in order of time, each once, and the same whatever finishes first', async () => {
    let state = 1;
    const random = () => {
      state = (state * 16807) % 2147483647;
      return (state / 2147483647) * 4;
    };
    const first = await measure(30, random);
    const second = await measure(30, () => 0);
    expect(first).toEqual(second);
    const times = first.frames.map((frame) => frame.seconds);
    expect(times).toEqual([...new Set(times)].sort((a, b) => a - b));
  });

  test('a film of five frames a second is measured whole', async () => {
    const { frames: measured } = await measure(5, () => 0);
    expect(measured).toHaveLength(LENGTH * 5);
  });

  test('a model that fails ends the measurement with its fault', async () => {
    let calls = 0;
    const failing = measure(30, () => {
      if (++calls === 40) throw new Error('broken');
      return 0;
    });
    await expect(failing).rejects.toThrow('broken');
  });
});
