import type { Body } from '../../core/motion/body.js';
import { correspondence } from '../../core/motion/correspondence.js';
import type { JointAngle } from '../../core/motion/jointAngle.js';
import { type JointSamples, jointSamples, oneOrBothSides } from '../../core/motion/jointSamples.js';
import type { Stretch } from '../../core/motion/postureEnds.js';
import { SIDE_VIEW_DEGREES, type View } from '../../core/motion/view.js';
import { viewByLimbs } from '../../core/motion/viewByLimbs.js';
import type { Side } from '../../core/pose/keypoints.js';

/** A movement as read in the view that times it best. */
export interface TimedMovement extends Stretch {
  readonly body: Body;
  readonly joint: JointAngle;
  readonly view: View;
  readonly driving: JointSamples;
  readonly measuredSides: readonly Side[];
  /** Whose limbs make the movement. */
  readonly movingSides: readonly Side[];
}

export interface TrueDegrees {
  /** The view in which the joint's degrees are read. */
  readonly view: View;
  readonly driving: JointSamples;
  /** True degrees of the joint for those read in the view that times it. */
  readonly degreesOf: (degrees: number) => number;
}

/** Legs turn far enough, and in the lifter's own plane, to tell where the camera stands. */
const BY_LEGS: ReadonlySet<JointAngle> = new Set(['knee-flexion', 'hip-flexion']);

/**
 * The driving angle in true degrees: from an oblique view by the plane in which the legs turn, which is known better than
 * how far shoulders and hips lie apart. Times are left to the latter: taken as too oblique, a plane straightens what the
 * pose model bends.
 */
export function trueDegrees(timed: TimedMovement): TrueDegrees {
  const { body, joint, view, driving, measuredSides, movingSides } = timed;
  if (view.degreesOffSide <= SIDE_VIEW_DEGREES || !BY_LEGS.has(joint)) return asTimed(timed);
  const byLimbs = viewByLimbs(body, driving, { ...timed, sides: movingSides });
  const told = oneOrBothSides(measuredSides.map((side) => jointSamples(body, joint, side, byLimbs)));
  return { view: byLimbs, driving: told, degreesOf: correspondence(driving, told, timed) };
}

/** The degrees as they are read in the view that times the movement. */
export function asTimed({ view, driving }: Pick<TimedMovement, 'view' | 'driving'>): TrueDegrees {
  return { view, driving, degreesOf: (degrees) => degrees };
}
