import { sum } from 'simple-statistics';
import { toDegrees, toRadians, type Vector } from './angles.js';

/** A limb at both ends of a range: where its far joint lies from its near one, torso lengths. */
export interface TurnedLimb {
  readonly low: Vector;
  readonly high: Vector;
}

/** One deviation of a limb's squared width, torso lengths squared, as keypoints show it. */
const SQUARED_WIDTH_ERROR = 0.1;
/** One deviation of the squared cosine of what the view says: 9° at 45°, and a trunk that lies or twists may read 90° instead of 60°. */
const SQUARED_COSINE_ERROR = 0.15;

/**
 * How far the plane in which limbs turn is turned out of the picture, degrees, 0 to 90.
 *
 * A limb keeps its length: what it loses in height it gains across, by the squares, the gain foreshortened by the square of
 * the cosine looked for. The least squares of all limbs are weighed against what the view says (inverse variances), so
 * that limbs which hardly turn leave the view's answer.
 *
 * @param viewDegrees what the view says, from how far shoulders and hips lie apart
 */
export function planeOutOfPicture(limbs: readonly TurnedLimb[], viewDegrees: number): number {
  const across = limbs.map(({ low, high }) => high.x ** 2 - low.x ** 2);
  const upright = limbs.map(({ low, high }) => low.y ** 2 - high.y ** 2);
  const [limbsSay, viewSays] = [1 / SQUARED_WIDTH_ERROR ** 2, 1 / SQUARED_COSINE_ERROR ** 2];
  const squaredCosine =
    (limbsSay * sum(upright.map((loss, i) => loss * across[i]!)) +
      viewSays * Math.cos(toRadians(viewDegrees)) ** 2) /
    (limbsSay * sum(upright.map((loss) => loss ** 2)) + viewSays);
  return toDegrees(Math.acos(Math.sqrt(Math.min(1, Math.max(0, squaredCosine)))));
}
