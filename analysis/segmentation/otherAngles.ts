import { inStep, type OtherAngle } from '../../core/motion/anglesInStep.js';
import type { Body } from '../../core/motion/body.js';
import { evenTurning } from '../../core/motion/evenTurning.js';
import type { JointAngle } from '../../core/motion/jointAngle.js';
import { type JointSamples, jointSamples } from '../../core/motion/jointSamples.js';
import { limbInclinations } from '../../core/motion/limbInclinations.js';
import { SIDE_VIEW_DEGREES, type View } from '../../core/motion/view.js';
import { planeByBreadths } from '../../core/motion/viewByLimbs.js';
import type { Side } from '../../core/pose/keypoints.js';

const JOINTS: readonly JointAngle[] = ['elbow-flexion', 'shoulder-elevation', 'hip-flexion', 'knee-flexion'];
export const BOTH_SIDES: readonly Side[] = ['left', 'right'];

export interface Driving {
  readonly joint: JointAngle;
  readonly samples: JointSamples;
  readonly sides: readonly Side[];
  /** The stretch of film that the movement takes. */
  readonly fromSeconds: number;
  readonly toSeconds: number;
}

/**
 * What an oblique view shows beside the driving angle: the other joints and how the limbs lean, of both sides, and how
 * far the body as a whole is between its postures at both ends of the range. Nothing in a side view: there the far limbs
 * are hidden, and the driving joint lies flat in the picture.
 *
 * @param movingSides whose limbs make the movement
 */
export function otherAngles(
  body: Body,
  driving: Driving,
  movingSides: readonly Side[],
  view: View,
): readonly OtherAngle[] {
  if (view.degreesOffSide <= SIDE_VIEW_DEGREES) return [];
  const isDriving = (side: Side, joint: JointAngle) =>
    driving.sides.includes(side) && isAtOneJoint(joint, driving.joint);
  const joints = BOTH_SIDES.flatMap((side) =>
    JOINTS.filter((joint) => !isDriving(side, joint)).map((joint) => jointSamples(body, joint, side, view)),
  );
  const limbs = limbInclinations(body, BOTH_SIDES, planeTurned(driving.joint, view.degreesOffSide));
  return [...[...joints, ...limbs].map(inStep), ...wholeBody(body, driving, movingSides, view)];
}

const isAtOneJoint = (a: JointAngle, b: JointAngle) => a.split('-')[0] === b.split('-')[0];

/** Arms go out to the side in the frontal plane; nearly all else is about the sagittal one. */
const IN_FRONTAL_PLANE: ReadonlySet<JointAngle> = new Set([
  'shoulder-abduction',
  'shoulder-horizontal-abduction',
]);

/** How far a joint's plane of movement is turned out of the picture, degrees. */
const planeTurned = (joint: JointAngle, degreesOffSide: number): number =>
  IN_FRONTAL_PLANE.has(joint) ? 90 - degreesOffSide : degreesOffSide;

/** The whole body's say beside that of one joint or limb: head, shoulders and hands, which travel far, speak in it. */
const BODY_SAY = 3;
/** It has its full say up to the smaller misfit, and none from the larger one on: people's limbs do not all turn evenly. */
const FULL_SAY_MISFIT = 0.07;
const NO_SAY_MISFIT = 0.13;

function wholeBody(
  body: Body,
  { joint, samples, fromSeconds, toSeconds }: Driving,
  sides: readonly Side[],
  view: View,
): readonly OtherAngle[] {
  const outOfPictureDegrees = planeTurned(joint, planeByBreadths(view));
  const turning = evenTurning(body, samples, { joint, fromSeconds, toSeconds, sides, outOfPictureDegrees });
  if (turning === null || turning.misfit >= NO_SAY_MISFIT) return [];
  const trust = Math.min(1, (NO_SAY_MISFIT - turning.misfit) / (NO_SAY_MISFIT - FULL_SAY_MISFIT));
  return [{ ...turning, say: BODY_SAY * trust, leastSharedVariance: 0.9, fullSharedVariance: 0.95 }];
}
