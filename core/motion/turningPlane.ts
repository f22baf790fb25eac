import { sum } from 'simple-statistics';
import { KEYPOINT_INDEX, type Side } from '../pose/keypoints.js';
import { toDegrees, toRadians, type Vector } from './angles.js';
import { CHAIN } from './keypointPaths.js';
import type { Ends } from './postureEnds.js';

/** A limb at both ends of a range: where its far joint lies from its near one, torso lengths. */
export interface TurnedLimb {
  readonly low: Vector;
  readonly high: Vector;
}

/** The vertical plane in which limbs turn. */
export interface TurningPlane {
  /** How far it is turned out of the picture, 0 to 90. */
  readonly degrees: number;
  readonly standardErrorDegrees: number;
}

/** One deviation of a limb's squared width, torso lengths squared, as keypoints show it. */
const SQUARED_WIDTH_ERROR = 0.1;
/** One deviation of the squared cosine of what the view says: 9° at 45°, and a trunk that lies or twists may read 90° instead of 60°. */
const SQUARED_COSINE_ERROR = 0.15;
/** Near 0° and 90° the squared cosine hardly changes with the angle; its slope is taken for no less. */
const LEAST_SLOPE = 0.3;

/** The limbs of some sides' chains, as far as both their ends are seen. */
export function turnedLimbs(ends: Ends, sides: readonly Side[], torsoPixels: number): readonly TurnedLimb[] {
  const inTorsos = (far: Vector, near: Vector) => ({
    x: (far.x - near.x) / torsoPixels,
    y: (far.y - near.y) / torsoPixels,
  });
  return sides.flatMap((side) =>
    CHAIN.slice(1).flatMap((joint, index) => {
      const near = ends.get(KEYPOINT_INDEX[`${side}-${CHAIN[index]!}`]);
      const far = ends.get(KEYPOINT_INDEX[`${side}-${joint}`]);
      if (near === undefined || far === undefined) return [];
      return [{ low: inTorsos(far.low, near.low), high: inTorsos(far.high, near.high) }];
    }),
  );
}

/**
 * How far the plane in which limbs turn is turned out of the picture.
 *
 * A limb keeps its length: what it loses in height it gains across, by the squares, the gain foreshortened by the square of
 * the cosine looked for. The least squares of all limbs are weighed against what the view says (inverse variances), so
 * that limbs which hardly turn leave the view's answer.
 *
 * @param viewDegrees what the view says, from how far shoulders and hips lie apart
 */
export function planeOutOfPicture(limbs: readonly TurnedLimb[], viewDegrees: number): TurningPlane {
  const across = limbs.map(({ low, high }) => high.x ** 2 - low.x ** 2);
  const upright = limbs.map(({ low, high }) => low.y ** 2 - high.y ** 2);
  const [limbsSay, viewSays] = [1 / SQUARED_WIDTH_ERROR ** 2, 1 / SQUARED_COSINE_ERROR ** 2];
  const precision = limbsSay * sum(upright.map((loss) => loss ** 2)) + viewSays;
  const squaredCosine =
    (limbsSay * sum(upright.map((loss, i) => loss * across[i]!)) +
      viewSays * Math.cos(toRadians(viewDegrees)) ** 2) /
    precision;
  const degrees = toDegrees(Math.acos(Math.sqrt(Math.min(1, Math.max(0, squaredCosine)))));
  const slope = Math.max(LEAST_SLOPE, Math.sin(2 * toRadians(degrees)));
  return { degrees, standardErrorDegrees: toDegrees(1 / Math.sqrt(precision) / slope) };
}
