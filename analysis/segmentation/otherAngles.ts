import type { AngleCurve } from '../../core/motion/anglesInStep.js';
import type { Body } from '../../core/motion/body.js';
import type { JointAngle } from '../../core/motion/jointAngle.js';
import { jointSamples } from '../../core/motion/jointSamples.js';
import { limbInclinations } from '../../core/motion/limbInclinations.js';
import { SIDE_VIEW_DEGREES, type View } from '../../core/motion/view.js';
import type { Side } from '../../core/pose/keypoints.js';

const JOINTS: readonly JointAngle[] = ['elbow-flexion', 'shoulder-elevation', 'hip-flexion', 'knee-flexion'];
const BOTH_SIDES: readonly Side[] = ['left', 'right'];

/**
 * The angles beside the driving one that an oblique view shows, of both sides: the other joints, and how the limbs lean.
 * None in a side view: there the far limbs are hidden, and the driving joint lies flat in the picture.
 */
export function otherAngles(
  body: Body,
  driving: JointAngle,
  drivingSides: readonly Side[],
  view: View,
): readonly AngleCurve[] {
  if (view.degreesOffSide <= SIDE_VIEW_DEGREES) return [];
  const isDriving = (side: Side, joint: JointAngle) =>
    drivingSides.includes(side) && isAtOneJoint(joint, driving);
  const joints = BOTH_SIDES.flatMap((side) =>
    JOINTS.filter((joint) => !isDriving(side, joint)).map((joint) => jointSamples(body, joint, side, view)),
  );
  return [...joints, ...limbInclinations(body, BOTH_SIDES, view)];
}

const isAtOneJoint = (a: JointAngle, b: JointAngle) => a.split('-')[0] === b.split('-')[0];
