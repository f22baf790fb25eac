import { KEYPOINT_COUNT, KEYPOINT_INDEX } from '../pose/keypoints.js';
import { toRadians } from './angles.js';
import type { Body } from './body.js';
import type { View } from './view.js';

/**
 * How far above the hip's joint centre the pose model puts its point in a side view, along the trunk, in torso lengths:
 * 0.078 ± 0.024 over the rendered development scenes, less the further from the side (0.047 at 45°). On people,
 * pose models were found to put the hip 30 to 50 mm off (Needham et al. 2021, Scientific Reports 11:20673), which is
 * 0.06 to 0.1 torso lengths.
 */
export const HIP_ABOVE_TORSOS = 0.075;

/**
 * The body with its hip points moved from where the pose model puts them to the joint centres. The other points' mean
 * offsets lie along their limbs or within their spread from film to film, so that correcting them would change no
 * angle for the better.
 */
export function atJointCentres(body: Body, view: View): Body {
  const share = HIP_ABOVE_TORSOS * Math.cos(toRadians(view.degreesOffSide));
  const x = Float32Array.from(body.x);
  const y = Float32Array.from(body.y);
  for (let start = 0; start < x.length; start += KEYPOINT_COUNT) {
    for (const side of ['left', 'right'] as const) {
      const shoulder = start + KEYPOINT_INDEX[`${side}-shoulder`];
      const hip = start + KEYPOINT_INDEX[`${side}-hip`];
      x[hip] = x[hip]! + share * (x[hip]! - x[shoulder]!);
      y[hip] = y[hip]! + share * (y[hip]! - y[shoulder]!);
    }
  }
  return { ...body, x, y };
}
