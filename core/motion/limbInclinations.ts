import { KEYPOINT_COUNT, KEYPOINT_INDEX, type Side } from '../pose/keypoints.js';
import type { AngleCurve } from './anglesInStep.js';
import type { Body } from './body.js';
import type { View } from './view.js';

type Joint = 'shoulder' | 'elbow' | 'wrist' | 'hip' | 'knee' | 'ankle';

/** Trunk, upper arm, forearm, thigh and shank, from their upper end to their lower one. */
const SEGMENTS: readonly (readonly [Joint, Joint])[] = [
  ['shoulder', 'hip'],
  ['shoulder', 'elbow'],
  ['elbow', 'wrist'],
  ['hip', 'knee'],
  ['knee', 'ankle'],
];

/** Up to here a film is taken to show the sagittal plane, foreshortened; beyond, the frontal one. */
const NEARLY_FRONT_DEGREES = 65;

/**
 * How trunk, upper arm, forearm, thigh and shank of each side lean, in degrees that run on beyond a half turn: two keypoints each,
 * where a joint angle rests on three, and with errors of its own. The picture is stretched sideways by as much as
 * the view foreshortens the plane of movement.
 */
export function limbInclinations(body: Body, sides: readonly Side[], view: View): readonly AngleCurve[] {
  const off = (view.degreesOffSide * Math.PI) / 180;
  const shown = view.degreesOffSide < NEARLY_FRONT_DEGREES ? Math.cos(off) : Math.sin(off);
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
