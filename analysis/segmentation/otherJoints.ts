import type { Body } from '../../core/motion/body.js';
import type { JointAngle } from '../../core/motion/jointAngle.js';
import { jointSamples } from '../../core/motion/jointSamples.js';
import type { Samples } from '../../core/motion/samples.js';
import { SIDE_VIEW_DEGREES, type View } from '../../core/motion/view.js';
import type { Side } from '../../core/pose/keypoints.js';

const JOINTS: readonly JointAngle[] = ['elbow-flexion', 'shoulder-elevation', 'hip-flexion', 'knee-flexion'];

/**
 * The joints beside the driving one that an oblique view shows, of both sides. None in a side view: there the far limbs
 * are hidden, and the driving joint lies flat in the picture.
 */
export function otherJoints(
  body: Body,
  driving: JointAngle,
  drivingSides: readonly Side[],
  view: View,
): readonly Samples[] {
  if (view.degreesOffSide <= SIDE_VIEW_DEGREES) return [];
  const sides: readonly Side[] = ['left', 'right'];
  return sides.flatMap((side) =>
    JOINTS.filter((joint) => !(drivingSides.includes(side) && isAtOneJoint(joint, driving))).map((joint) =>
      jointSamples(body, joint, side, view),
    ),
  );
}

const isAtOneJoint = (a: JointAngle, b: JointAngle) => a.split('-')[0] === b.split('-')[0];
