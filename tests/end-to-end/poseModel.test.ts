import { fileURLToPath } from 'node:url';
import { type Tensor, tensor4d } from '@tensorflow/tfjs-core';
import { expect, test } from 'vitest';
import { readFilmFacts } from '../../core/media/filmFacts.js';
import { streamFrames } from '../../core/media/frames.js';
import { locateFfmpeg } from '../../core/media/locateFfmpeg.js';
import { cutOut } from '../../core/pose/cutOut.js';
import { MODEL_SIZE } from '../../core/pose/modelFacts.js';
import { hasNativeRuntime } from '../../core/pose/nativeModel.js';
import { loadNetwork } from '../../core/pose/network.js';
import { loadPoseModel } from '../../core/pose/poseModel.js';
import { wholePicture } from '../../core/pose/region.js';

const FILM = fileURLToPath(new URL('../../fixtures/films/goblet-squats.mp4', import.meta.url));

/** A place of the network's grid, as share of the picture. */
const PLACE: Readonly<Record<string, number>> = { 'movenet-thunder': 1 / 64, 'movenet-lightning': 1 / 48 };
const MODELS = ['movenet-thunder', 'movenet-lightning'] as const;

/** Every sixth second of a film, whole and in each model's size. */
async function* pictures(size: number): AsyncGenerator<Uint8Array> {
  const ffmpeg = await locateFfmpeg();
  const film = await readFilmFacts(FILM, ffmpeg);
  const whole = { left: 0, top: 0, width: film.width, height: film.height };
  const options = { width: film.width, height: film.height, oneEverySeconds: 6 };
  for await (const frame of streamFrames(film, ffmpeg, options)) {
    yield cutOut(frame, whole, wholePicture(film), size);
  }
}

// Reference: the whole network as published, whose last steps let the likeliest place alone decide.
test.each(MODELS)(
  '%s finds what its published last steps find, give or take a place',
  { timeout: 120_000 },
  async (name) => {
    const size = MODEL_SIZE[name];
    const model = await loadPoseModel(name);
    const published = await loadNetwork(name);
    const differences: number[] = [];
    for await (const crop of pictures(size)) {
      const input = tensor4d(Int32Array.from(crop), [1, size, size, 3], 'int32');
      const expected = await (published.execute(input) as Tensor).data();
      const found = await model.infer(crop);
      for (let at = 0; at < found.length; at += 3) {
        expect(Math.abs(found[at + 2]! - expected[at + 2]!)).toBeLessThan(1e-4);
        if (expected[at + 2]! < 0.3) continue;
        differences.push(Math.hypot(found[at]! - expected[at + 1]!, found[at + 1]! - expected[at]!));
      }
    }
    expect(differences.length).toBeGreaterThan(6 * 12);
    expect(Math.max(...differences)).toBeLessThan(PLACE[name]!);
    expect(Math.max(...differences)).toBeGreaterThan(0.01 * PLACE[name]!);
  },
);

// Reference: TensorFlow.js; the native runtime is an optional package.
test.skipIf(!(await hasNativeRuntime()))(
  'the native runtime gives TensorFlow.js’s keypoints',
  { timeout: 120_000 },
  async () => {
    for (const name of MODELS) {
      const [native, reference] = [await loadPoseModel(name, { native: true }), await loadPoseModel(name)];
      let count = 0;
      for await (const crop of pictures(MODEL_SIZE[name])) {
        const [found, expected] = [await native.infer(crop), await reference.infer(crop)];
        expected.forEach((value, index) => {
          expect(Math.abs(found[index]! - value)).toBeLessThan(1e-4);
        });
        count += 1;
      }
      expect(count).toBeGreaterThanOrEqual(6);
    }
  },
);
