import { KEYPOINT_COUNT, KEYPOINT_INDEX, type Side } from '../pose/keypoints.js';
import { toRadians } from './angles.js';
import type { AngleCurve } from './anglesInStep.js';
import type { Body } from './body.js';

type Joint = 'shoulder' | 'elbow' | 'wrist' | 'hip' | 'knee' | 'ankle';

/** Trunk, upper arm, forearm, thigh and shank, from their upper end to their lower one. */
const SEGMENTS: readonly (readonly [Joint, Joint])[] = [
  ['shoulder', 'hip'],
  ['shoulder', 'elbow'],
  ['elbow', 'wrist'],
  ['hip', 'knee'],
  ['knee', 'ankle'],
];

/** The picture is stretched by no more than this: nearer to the plane's edge, the view is not known well enough. */
const MOST_STRETCHED = 2;

/**
 * How trunk, upper arm, forearm, thigh and shank of each side lean, in degrees that run on beyond a half turn: two keypoints each,
 * where a joint angle rests on three, and with errors of its own. The picture is stretched sideways by as much as
 * the view foreshortens the plane of movement.
 *
 * @param outOfPictureDegrees how far the plane in which the limbs move is turned out of the picture, 0 to 90
 */
export function limbInclinations(
  body: Body,
  sides: readonly Side[],
  outOfPictureDegrees: number,
): readonly AngleCurve[] {
  const shown = Math.max(1 / MOST_STRETCHED, Math.cos(toRadians(outOfPictureDegrees)));
  return sides.flatMap((side) =>
    SEGMENTS.map(([upper, lower]) =>
      inclination(body, KEYPOINT_INDEX[`${side}-${upper}`], KEYPOINT_INDEX[`${side}-${lower}`], shown),
    ),
  );
}

function inclination(body: Body, upper: number, lower: number, shown: number): AngleCurve {
  const seconds: number[] = [];
  const values: number[] = [];
  for (let frame = 0; frame < body.frames; frame++) {
    const [a, b] = [frame * KEYPOINT_COUNT + upper, frame * KEYPOINT_COUNT + lower];
    if (body.seen[a] !== 1 || body.seen[b] !== 1) continue;
    const radians = Math.atan2((body.x[b]! - body.x[a]!) / shown, body.y[b]! - body.y[a]!);
    const degrees = (radians * 180) / Math.PI;
    const last = values.at(-1) ?? degrees;
    seconds.push(body.seconds[frame]!);
    values.push(degrees + 360 * Math.round((last - degrees) / 360));
  }
  return { seconds: Float64Array.from(seconds), values: Float64Array.from(values) };
}
