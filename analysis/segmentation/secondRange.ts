import type { Body } from '../../core/motion/body.js';
import { HALF_WIDTH_ERRORS } from '../../core/motion/interval.js';
import { jointSamples, meanOfSides } from '../../core/motion/jointSamples.js';
import type { View } from '../../core/motion/view.js';
import type { Exercise } from '../exercises/exercise.js';
import type { MeasuredBout, MeasuredRep } from './bout.js';
import { curvesOver, rangeOverRep } from './jointLevels.js';

/** Error of a second angle that differs from rep to rep beyond its noise (sway, the trunk giving), degrees. */
const REP_TO_REP_DEGREES = 3;

/** The reps of a bout with the range of their second angle, where the exercise's range shortens with either. */
export function withSecondRanges(
  bout: MeasuredBout & { readonly view: View },
  body: Body,
  exercise: Exercise,
): readonly MeasuredRep[] {
  const { secondAngle } = exercise;
  if (secondAngle === null || !exercise.secondAngleCountsForRange) return bout.reps;
  const [first, second] = bout.measuredSides.map((side) => jointSamples(body, secondAngle, side, bout.view));
  if (first === undefined) return bout.reps;
  const samples = second === undefined ? first : meanOfSides(first, second);
  // Reps are compared with each other: an angle read at a slant still tells when it shrinks, a hidden joint does not.
  if (samples.reason === 'joint-not-visible' || samples.reason === 'far-limb-hidden') return bout.reps;
  const curves = curvesOver(samples, bout);
  return bout.reps.map((rep) => {
    const range = rangeOverRep(curves, rep);
    return {
      ...rep,
      secondRange: range && {
        degrees: range.degrees,
        uncertaintyDegrees: HALF_WIDTH_ERRORS * Math.hypot(range.standardError, REP_TO_REP_DEGREES),
      },
    };
  });
}
