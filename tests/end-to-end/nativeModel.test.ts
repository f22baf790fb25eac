import { fileURLToPath } from 'node:url';
import { expect, test } from 'vitest';
import { readFilmFacts } from '../../core/media/filmFacts.js';
import { streamFrames } from '../../core/media/frames.js';
import { locateFfmpeg } from '../../core/media/locateFfmpeg.js';
import { cutOut } from '../../core/pose/cutOut.js';
import { MODEL_SIZE } from '../../core/pose/modelFacts.js';
import { hasNativeRuntime } from '../../core/pose/nativeModel.js';
import { loadPoseModel } from '../../core/pose/poseModel.js';
import { wholePicture } from '../../core/pose/region.js';

const FILM = fileURLToPath(new URL('../../fixtures/films/goblet-squats.mp4', import.meta.url));

// Reference: TensorFlow.js running the network as published; the native runtime is an optional package.
test.skipIf(!(await hasNativeRuntime()))(
  'the native runtime gives TensorFlow.js’s keypoints',
  { timeout: 120_000 },
  async () => {
    const ffmpeg = await locateFfmpeg();
    const film = await readFilmFacts(FILM, ffmpeg);
    const whole = { left: 0, top: 0, width: film.width, height: film.height };
    for (const name of ['movenet-thunder', 'movenet-lightning'] as const) {
      const [native, reference] = [await loadPoseModel(name, { native: true }), await loadPoseModel(name)];
      let pictures = 0;
      const options = { width: film.width, height: film.height, oneEverySeconds: 6 };
      for await (const frame of streamFrames(film, ffmpeg, options)) {
        const crop = cutOut(frame, whole, wholePicture(film), MODEL_SIZE[name]);
        const [found, expected] = [await native.infer(crop), await reference.infer(crop)];
        expected.forEach((value, index) => {
          expect(Math.abs(found[index]! - value)).toBeLessThan(1e-4);
        });
        pictures += 1;
      }
      expect(pictures).toBeGreaterThanOrEqual(6);
    }
  },
);
