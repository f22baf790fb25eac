import { describe, expect, it } from 'vitest';
import { findExercise } from '../../../analysis/exercises/catalogue.js';
import { findBouts, type ViewedBout } from '../../../analysis/segmentation/strokes.js';
import { readBody } from '../../../core/motion/body.js';
import { knotSeconds, valueAt } from '../../../core/motion/speedSpline.js';
import { filmed, type Pose, STANDING, times } from '../../core/motion/stickFigure.js';

const SECONDS = times(16);
/** Down and up again in 4 s, three times, from the second second on. */
const depthAt = (at: number) => (at < 2 || at > 14 ? 0 : 0.5 - 0.5 * Math.cos((2 * Math.PI * (at - 2)) / 4));
const SQUATTING = (at: number): Pose => ({
  ...STANDING,
  kneeFlexion: 5 + 100 * depthAt(at),
  hipFlexion: 5 + 105 * depthAt(at),
  trunkLean: 40 * depthAt(at),
});

function squatsFrom(degreesOffSide: number): ViewedBout {
  const camera = { azimuthDegrees: 90 - degreesOffSide, torsoPixels: 120 };
  const [bout, ...more] = findBouts(readBody(filmed(SECONDS, SQUATTING, camera, { pixels: 1, seed: 3 })), {
    exercise: findExercise('squat'),
    film: { startSeconds: 0, endSeconds: 16 },
    plannedStartHoldSeconds: 0,
  });
  expect(more).toHaveLength(0);
  return bout!;
}

describe('degrees of a knee seen obliquely', () => {
  it.each([35, 45, 50])('are the true ones from %i° off, by the plane in which the legs turn', (degrees) => {
    const { reps, view } = squatsFrom(degrees);
    expect(Math.abs(view.degreesOffSide - degrees)).toBeLessThan(8);
    expect(reps).toHaveLength(3);
    for (const { stretched, contracted, concentricExcursion, phases } of reps) {
      expect(Math.abs(stretched!.degrees - 105)).toBeLessThan(8);
      expect(Math.abs(contracted!.degrees - 5)).toBeLessThan(8);
      const lift = phases.find(({ kind }) => kind === 'concentric')!;
      expect(concentricExcursion!.degrees).toBeCloseTo(lift.fromDegrees - lift.toDegrees, 9);
    }
  });

  it('are what the drawn curve reaches, too', () => {
    const { reps, curves, degreesOf } = squatsFrom(45);
    const drawn = curves.flatMap(({ spline }) =>
      Array.from({ length: spline.cells + 1 }, (_, knot) =>
        degreesOf(valueAt(spline, knotSeconds(spline, knot))),
      ),
    );
    const deepest = Math.max(...reps.map(({ stretched }) => stretched!.degrees));
    expect(Math.abs(Math.max(...drawn) - deepest)).toBeLessThan(4);
  });
});
