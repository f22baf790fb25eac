import { KEYPOINT_INDEX, type Keypoint } from './keypoints.js';
import { SEEN_SCORE } from './people.js';

/** The angle at the middle of three keypoints in the picture, with its standard error, degrees. */
export interface LimbAngle {
  readonly degrees: number;
  readonly standardError: number;
}

/** The angles whose changes tell that a body moves: elbows, shoulders, hips and knees. */
const LIMBS: readonly (readonly [number, number, number])[] = (['left', 'right'] as const).flatMap((side) => {
  const at = (name: string) => KEYPOINT_INDEX[`${side}-${name}` as Keypoint];
  return [
    [at('shoulder'), at('elbow'), at('wrist')],
    [at('hip'), at('shoulder'), at('elbow')],
    [at('shoulder'), at('hip'), at('knee')],
    [at('hip'), at('knee'), at('ankle')],
  ] as const;
});

export const LIMB_ANGLE_COUNT = LIMBS.length;

/**
 * The limb angles of a body, null where a keypoint is not seen.
 *
 * @param points 17 × (x, y, score), pixels.
 * @param keypointError standard error of a keypoint in each coordinate, pixels.
 */
export function limbAngles(points: Float32Array, keypointError: number): readonly (LimbAngle | null)[] {
  return LIMBS.map(([one, middle, other]) => {
    if ([one, middle, other].some((keypoint) => points[keypoint * 3 + 2]! < SEEN_SCORE)) return null;
    const side = (end: number) => ({
      right: points[end * 3]! - points[middle * 3]!,
      down: points[end * 3 + 1]! - points[middle * 3 + 1]!,
    });
    return angleBetween(side(one), side(other), keypointError);
  });
}

interface Line {
  readonly right: number;
  readonly down: number;
}

/**
 * The angle between two segments that share a keypoint, and its error to first order from independent errors of
 * the three keypoints: s · √(2/a² + 2/b² − 2 cos θ / (a b)) for segments a and b.
 */
export function angleBetween(first: Line, second: Line, keypointError: number): LimbAngle | null {
  const a = Math.hypot(first.right, first.down);
  const b = Math.hypot(second.right, second.down);
  if (a === 0 || b === 0) return null;
  const cross = first.right * second.down - first.down * second.right;
  const dot = first.right * second.right + first.down * second.down;
  const angle = Math.atan2(Math.abs(cross), dot);
  const error = keypointError * Math.sqrt(2 / a ** 2 + 2 / b ** 2 - (2 * Math.cos(angle)) / (a * b));
  return { degrees: (angle * 180) / Math.PI, standardError: (error * 180) / Math.PI };
}
