import { execFileSync } from 'node:child_process';
import { existsSync } from 'node:fs';
import { mkdtemp, rm } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { Failure } from '../../core/failure.js';
import { readFilmFacts } from '../../core/media/filmFacts.js';
import { type Ffmpeg, locateFfmpeg } from '../../core/media/locateFfmpeg.js';
import { type EstimateOptions, estimatePoseTrack } from '../../core/pose/estimateTrack.js';
import { KEYPOINT_INDEX } from '../../core/pose/keypoints.js';
import { decodeTrack, encodeTrack } from '../../core/pose/trackFile.js';

const GOBLET_SQUATS = fileURLToPath(new URL('../../fixtures/films/goblet-squats.mp4', import.meta.url));
/** Two squats of a person, three-quarter front view, 5 frames a second; not part of the project. */
const SQUATS = fileURLToPath(new URL('../../../shared/films/squats-5fps.mp4', import.meta.url));

let folder: string;
let ffmpeg: Ffmpeg;
let empty: string;
beforeAll(async () => {
  folder = await mkdtemp(join(tmpdir(), 'track-'));
  ffmpeg = await locateFfmpeg();
  empty = join(folder, 'empty.mp4');
  // A moving test picture without anybody in it.
  execFileSync(ffmpeg.path, [
    ...['-v', 'error', '-f', 'lavfi', '-i', 'testsrc2=size=320x240:rate=10:duration=2'],
    ...['-pix_fmt', 'yuv420p', empty],
  ]);
});
afterAll(() => rm(folder, { recursive: true }));

async function track(file: string, options: EstimateOptions) {
  return estimatePoseTrack(await readFilmFacts(file, ffmpeg), ffmpeg, options);
}

describe('pose track of a film without anybody', () => {
  test('is the same for any number of workers, and sees nobody', { timeout: 120_000 }, async () => {
    const one = await track(empty, { quality: 'full', workers: 1 });
    const three = await track(empty, { quality: 'full', workers: 3 });
    expect(three).toEqual(one);
    expect(one.framesInFilm).toBe(20);
    expect(one.seconds).toHaveLength(20);
    expect(one.people).toEqual({ medianCount: 0, lifterDoubtful: false });
    expect(one.score.reduce((sum, score) => sum + score, 0) / one.score.length).toBeLessThan(0.2);
  });

  test('reads only the part between two times, and reports progress', { timeout: 60_000 }, async () => {
    const stages = new Set<string>();
    const part = await track(empty, {
      quality: 'quick',
      workers: 1,
      fromSeconds: 0.5,
      toSeconds: 1,
      onProgress: ({ stage }) => stages.add(stage),
    });
    expect(Array.from(part.seconds, (seconds) => Math.round(seconds * 10))).toEqual([5, 6, 7, 8, 9]);
    expect(part.model).toBe('movenet-lightning');
    expect([...stages]).toEqual(['looking', 'measuring']);
  });

  test('stops when asked to', { timeout: 60_000 }, async () => {
    const controller = new AbortController();
    const running = track(empty, {
      quality: 'full',
      workers: 2,
      signal: controller.signal,
      onProgress: () => controller.abort(),
    });
    const error = await running.catch((thrown: unknown) => thrown);
    expect(error).toBeInstanceOf(Failure);
    expect((error as Failure).kind).toBe('interrupted');
  });
});

test('standard quality measures the same frames for any number of workers', {
  timeout: 180_000,
}, async () => {
  // The lifter stands, and the first rep begins. More numbers by stand-ins: tests/core/pose/trackFrames.test.ts.
  const part = { quality: 'standard', toSeconds: 2.4 } as const;
  const one = await track(GOBLET_SQUATS, { ...part, workers: 1 });
  expect(await track(GOBLET_SQUATS, { ...part, workers: 3 })).toEqual(one);
  expect(one.framesInFilm).toBe(72);
  expect(one.seconds.length).toBeGreaterThan(30);
});

describe.skipIf(!existsSync(SQUATS))('pose track of real squats', () => {
  test('follows the hips down and up, the same for any number of workers', { timeout: 180_000 }, async () => {
    const one = await track(SQUATS, { quality: 'quick', workers: 1 });
    const two = await track(SQUATS, { quality: 'quick', workers: 2 });
    expect(two).toEqual(one);
    expect(decodeTrack(encodeTrack(one))).toEqual(one);
    expect(one.people).toEqual({ medianCount: 1, lifterDoubtful: false });
    const hipAt = (seconds: number) => {
      const frame = one.seconds.findIndex((time) => time >= seconds);
      return one.y[frame * 17 + KEYPOINT_INDEX['left-hip']]!;
    };
    // Bottoms at 1.6–2.4 and 6.4–7.2 s, tops at 3.6–5.2 and 8.2–10.2 s, by colour tracking (±0.2 s).
    expect(hipAt(2)).toBeGreaterThan(hipAt(4.4) + 100);
    expect(hipAt(6.8)).toBeGreaterThan(hipAt(9) + 100);
  });
});
