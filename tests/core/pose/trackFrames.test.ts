import { describe, expect, test } from 'vitest';
import type { FilmFacts, TimedFrame } from '../../../core/media/film.js';
import { KEYPOINT_INDEX } from '../../../core/pose/keypoints.js';
import { MODEL_SIZE } from '../../../core/pose/modelFacts.js';
import type { Quality } from '../../../core/pose/track.js';
import { type OpenFrames, type PoseProgress, trackFrames } from '../../../core/pose/trackFrames.js';
import type { WorkerPool } from '../../../core/pose/workerPool.js';
import { person, squatting } from './inventedPeople.js';

const PICTURE = { width: 480, height: 640 };
const RATE = 20;
const LENGTH = 12;
const FRAMES = RATE * LENGTH;
/** Somebody stands for 3 s, squats twice in 6 s, and stands. */
const depthAt = (seconds: number) => (seconds < 3 || seconds > 9 ? 0 : squatting(seconds - 3, 3));
const bodyAt = (seconds: number) => person({ x: 240, feetY: 600, height: 540, depth: depthAt(seconds) });

const filmOf = (rate: number): FilmFacts => ({
  ...{ file: 'invented.mp4', recordedAt: null, durationSeconds: FRAMES / rate, ...PICTURE, frameRate: rate },
  ...{ variableFrameRate: false, slowMotionFactor: 1, rotationDegrees: 0, flipped: false },
  ...{ highDynamicRange: false, codec: 'h264' },
});

/** Pictures of one colour, which is the frame's number. */
const framesAt = (rate: number): OpenFrames =>
  async function* (options): AsyncGenerator<TimedFrame> {
    const { width, height, oneEverySeconds = 0, fromSeconds = 0, toSeconds = Infinity } = options;
    let last = -Infinity;
    for (let index = 0; index < FRAMES; index += 1) {
      const seconds = index / rate;
      if (seconds < fromSeconds || seconds >= toSeconds) continue;
      if (seconds - last < oneEverySeconds - 1e-6) continue;
      last = seconds;
      yield { seconds, width, height, pixels: new Uint8Array(width * height * 3).fill(index) };
    }
  };

/** Answers each picture with the body of its moment, every one after a time of its own. */
function poolOf(
  workers: number,
  delay: () => number,
): WorkerPool & { readonly asked: () => number; readonly renewedAfter: readonly number[] } {
  let asked = 0;
  const renewedAfter: number[] = [];
  return {
    workers,
    busyMilliseconds: () => 0,
    renew: async () => void renewedAfter.push(asked),
    renewedAfter,
    close: async () => {},
    asked: () => asked,
    run: async (job) => {
      const pixels = job.kind === 'look' ? job.picture : job.crop;
      const side = Math.sqrt(pixels.length / 3);
      const index = pixels[job.kind === 'look' ? 0 : ((side / 2) * side + side / 2) * 3]!;
      if (job.kind === 'measure') asked += 1;
      await new Promise((settle) => setTimeout(settle, delay()));
      const body = bodyAt(index / RATE);
      // A look is answered in shares of the square that the picture's longer side fills; a cut-out in shares of
      // itself, here as if the body filled it always alike.
      return [body.map((value, at) => (at % 3 === 2 ? value : value / PICTURE.height))];
    },
  };
}

const track = (
  pool: WorkerPool,
  quality: Quality,
  onProgress: (progress: PoseProgress) => void = () => {},
  rate = RATE,
) => {
  const film = filmOf(rate);
  const options = { quality, lengthSeconds: film.durationSeconds, lifter: null, onProgress };
  return trackFrames(film, framesAt(rate), pool, options);
};

/** Milliseconds, always the same row of them: Park and Miller's minimal standard generator, 1988. */
function unevenDelays() {
  let state = 1;
  return () => {
    state = (state * 16807) % 2147483647;
    return (state / 2147483647) * 6;
  };
}

describe('the way of a film’s frames', () => {
  test.each(['quick', 'standard', 'full'] as const)(
    '%s: the same track for any number of workers, whichever answers first',
    async (quality) => {
      const one = await track(
        poolOf(1, () => 0),
        quality,
      );
      for (const workers of [3, 8]) {
        expect(await track(poolOf(workers, unevenDelays()), quality)).toEqual(one);
      }
      expect(one.framesInFilm).toBe(FRAMES);
      expect(Array.from(one.seconds)).toEqual([...new Set(one.seconds)].sort((a, b) => a - b));
      expect(one.people).toEqual({ medianCount: 1, lifterDoubtful: false });
    },
  );

  test('full measures every frame; standard leaves out stillness alone; quick takes the small model', async () => {
    const [full, standard, quick] = [poolOf(2, () => 0), poolOf(2, () => 0), poolOf(2, () => 0)];
    expect((await track(full, 'full')).seconds).toHaveLength(FRAMES);
    const sparse = await track(standard, 'standard');
    const between = (from: number, to: number) =>
      [...sparse.seconds].filter((seconds) => seconds >= from && seconds < to).length;
    expect(between(3, 9)).toBe(6 * RATE);
    expect(between(0, 1)).toBeLessThan(RATE);
    expect(standard.asked()).toBe(sparse.seconds.length);
    // The detector's memory is given back once, before anything is measured.
    expect(standard.renewedAfter).toEqual([0]);
    expect((await track(quick, 'quick')).model).toBe('movenet-lightning');
    expect(MODEL_SIZE['movenet-lightning']).toBeLessThan(MODEL_SIZE[sparse.model]);
  });

  test('of a film of 60 frames a second full measures all, the others half', async () => {
    const measured = async (quality: Quality) =>
      (
        await track(
          poolOf(2, () => 0),
          quality,
          () => {},
          60,
        )
      ).seconds.length;
    expect(await measured('full')).toBe(FRAMES);
    expect(await measured('quick')).toBe(FRAMES / 2);
    expect(await measured('standard')).toBeLessThanOrEqual(FRAMES / 2);
  });

  test('keypoints come back in pixels of the upright picture, where the cut-out was', async () => {
    const { seconds, y } = await track(
      poolOf(2, () => 0),
      'full',
    );
    const hipAt = (time: number) =>
      y[seconds.findIndex((value) => value >= time - 1e-6) * 17 + KEYPOINT_INDEX['left-hip']]!;
    // Deepest in the middle of each squat, standing before, between and after them.
    for (const low of [4.5, 7.5]) {
      for (const high of [1, 6, 11]) expect(hipAt(low)).toBeGreaterThan(hipAt(high) + 60);
    }
  });

  test('progress tells what is done and ends with all of it', async () => {
    const told: PoseProgress[] = [];
    await track(
      poolOf(2, () => 0),
      'full',
      (progress) => told.push(progress),
    );
    const stages = { looking: 2 * LENGTH, measuring: FRAMES };
    for (const [stage, total] of Object.entries(stages)) {
      const own = told.filter((progress) => progress.stage === stage);
      expect(own.map(({ done }) => done)).toEqual(own.map((_, index) => index + 1));
      expect(own.at(-1)).toEqual({ stage, done: total, total });
    }
  });

  test('a model that fails ends it with its own fault', async () => {
    let calls = 0;
    const pool = poolOf(3, () => {
      calls += 1;
      if (calls === 60) throw new Error('broken');
      return 0;
    });
    await expect(track(pool, 'full')).rejects.toThrow('broken');
  });
});
