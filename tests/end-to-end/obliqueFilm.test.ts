import { existsSync, readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { beforeAll, describe, expect, test } from 'vitest';
import { findExercise } from '../../analysis/exercises/catalogue.js';
import { findBouts } from '../../analysis/segmentation/strokes.js';
import { readFilmFacts } from '../../core/media/filmFacts.js';
import { locateFfmpeg } from '../../core/media/locateFfmpeg.js';
import { type Body, readBody } from '../../core/motion/body.js';
import { jointSamples } from '../../core/motion/jointSamples.js';
import { estimateView, type View } from '../../core/motion/view.js';
import { estimatePoseTrack } from '../../core/pose/estimateTrack.js';

/** A person filmed about 50° off the side, with knee angles by optical motion capture; not part of the project. */
const FOLDER = fileURLToPath(new URL('../../../shared/films/', import.meta.url));
const FILM = `${FOLDER}sit-to-stand.mp4`;
/** Capture time less film time, seconds. */
const CAPTURE_AHEAD_SECONDS = 0.06;
const PART = { fromSeconds: 4, toSeconds: 9.6 };

/** Where the camera may have stood, judged by eye, degrees off the side. */
const CAMERA_DEGREES = [45, 50, 55];

describe.skipIf(!existsSync(FILM))('a real person rising from a stool, filmed at a slant', () => {
  let body: Body;
  beforeAll(async () => {
    const ffmpeg = await locateFfmpeg();
    const facts = await readFilmFacts(FILM, ffmpeg);
    const track = await estimatePoseTrack(facts, ffmpeg, { quality: 'standard', workers: 1, ...PART });
    body = readBody(track);
  }, 240_000);

  test.each(CAMERA_DEGREES)(
    'seen from %i° off, one knee follows the optical reference; the other is refused',
    (degrees) => {
      const view: View = {
        ...estimateView(body, PART.fromSeconds, PART.toSeconds),
        ...{ degreesOffSide: degrees, facing: 'left', nearSide: 'left' },
      };
      const right = jointSamples(body, 'knee-flexion', 'right', view);
      expect(right).toMatchObject({ correction: 'out-of-plane', reason: null });
      const reference = referenceOf('knee_r_deg');
      const errors = Array.from(
        right.values,
        (value, at) => value - reference(right.seconds[at]! + CAPTURE_AHEAD_SECONDS),
      );
      // Flat, the same knee was 14° off; corrected, 4°.
      expect(Math.hypot(...errors) / Math.sqrt(errors.length)).toBeLessThan(6);
      // The left thigh points at the camera: what its knee reads is 36° off.
      expect(jointSamples(body, 'knee-flexion', 'left', view).reason).toBe('view-too-oblique');
    },
  );

  test('is not put at the side, and what is told in degrees is so', () => {
    // The breadths of shoulders and hips read 58° ± 26° here, on the border beyond which no degrees are told.
    const view = estimateView(body, PART.fromSeconds, PART.toSeconds);
    expect(Math.abs(view.degreesOffSide - 50)).toBeLessThan(view.uncertaintyDegrees);
    const bouts = findBouts(body, {
      exercise: findExercise('sit-to-stand'),
      film: { startSeconds: PART.fromSeconds, endSeconds: PART.toSeconds },
      plannedStartHoldSeconds: 0,
    });
    expect(bouts).toHaveLength(1);
    const [{ driving, reps }] = bouts as [(typeof bouts)[number]];
    expect(driving.correction).toBe('out-of-plane');
    const whole = reps.filter((rep) => rep.complete);
    expect(whole.length).toBeGreaterThanOrEqual(1);
    if (driving.degreesTrustworthy) {
      for (const { stretched, contracted } of whole) {
        // Seated 106° to 110°, standing 3° to 5°, by the reference.
        expect(Math.abs(stretched!.degrees - 108)).toBeLessThan(stretched!.uncertaintyDegrees + 2);
        expect(Math.abs(contracted!.degrees - 4)).toBeLessThan(contracted!.uncertaintyDegrees + 2);
      }
    } else {
      expect(driving.reason).toBe('view-too-oblique');
    }
  });
});

/** The reference angle of one knee at a capture time, degrees. */
function referenceOf(column: string): (seconds: number) => number {
  const [head, ...lines] = readFileSync(`${FOLDER}sit-to-stand.joint-angles.csv`, 'utf8')
    .trim()
    .split(/\r?\n/);
  const at = head!.split(',').indexOf(column);
  const rows = lines.map((line) => line.split(',').map(Number));
  return (seconds) => {
    // A hundred rows a second from 0 s on.
    const row = rows[Math.min(rows.length - 1, Math.max(0, Math.round(seconds * 100)))]!;
    return row[at]!;
  };
}
