import { KEYPOINT_COUNT, KEYPOINT_INDEX, type Side } from '../pose/keypoints.js';
import { turnDegrees } from './angles.js';
import type { Body } from './body.js';
import { type JointGeometry, keypointsOf } from './jointGeometry.js';
import { direction, seenFrames } from './seenFrames.js';
import { SIDE_VIEW_DEGREES, type View } from './view.js';

/** Which way of turning in the picture counts as positive: 1 clockwise, -1 counter-clockwise, 0 where the angle has no sign. */
export type BendDirection = -1 | 0 | 1;

/** A hinge is signed when at least this share of its clearly bent frames bends the same way. */
const HINGE_AGREEMENT = 0.9;
const CLEARLY_BENT_DEGREES = 25;

/** The positive way of turning of a joint, frame by frame. */
export function bendDirection(
  body: Body,
  geometry: JointGeometry,
  side: Side,
  view: View,
): (frame: number) => BendDirection {
  const forward: BendDirection = view.forward === 0 ? 0 : view.forward === 1 ? -1 : 1;
  switch (geometry.sign) {
    case 'hinge': {
      const hinge = hingeDirection(body, geometry);
      return () => hinge;
    }
    case 'forward':
      return () => forward;
    case 'outward': {
      if (view.degreesOffSide < SIDE_VIEW_DEGREES) return () => forward;
      return (frame) => {
        const start = frame * KEYPOINT_COUNT;
        const left = body.x[start + KEYPOINT_INDEX['left-shoulder']]!;
        const right = body.x[start + KEYPOINT_INDEX['right-shoulder']]!;
        return (side === 'left') === left > right ? -1 : 1;
      };
    }
    case 'complement':
      return () => 0;
  }
}

/** Which way a hinge bends in the picture over the whole film; 0 where it bends both ways or hardly at all. */
function hingeDirection(body: Body, geometry: JointGeometry): BendDirection {
  const keypoints = keypointsOf(geometry.first, geometry.second);
  let [clockwise, counter] = [0, 0];
  for (const { points } of seenFrames(body, keypoints)) {
    const turn = turnDegrees(direction(geometry.first, points), direction(geometry.second, points));
    if (Math.abs(turn) < CLEARLY_BENT_DEGREES || Math.abs(turn) > 165) continue;
    if (turn > 0) clockwise += 1;
    else counter += 1;
  }
  const clear = HINGE_AGREEMENT * (clockwise + counter);
  if (clockwise + counter === 0) return 0;
  return clockwise >= clear ? 1 : counter >= clear ? -1 : 0;
}
