import { KEYPOINT_INDEX, type Side } from '../pose/keypoints.js';
import type { JointAngle } from './jointAngle.js';

/** A line of the body from the middle of some keypoints to the middle of others (positions in `KEYPOINTS`). */
export interface BodyLine {
  readonly from: readonly number[];
  readonly to: readonly number[];
}

/** How the turn from the first line to the second becomes the joint angle. */
export type AngleSign =
  /** A hinge: bends one way only, the way the film itself shows. */
  | 'hinge'
  /** Forward of the trunk is positive. */
  | 'forward'
  /** Away from the midline is positive. */
  | 'outward'
  /** The quarter turn from hanging to in line with the shoulders: 90° less the angle between the lines. */
  | 'complement';

export interface JointGeometry {
  readonly first: BodyLine;
  readonly second: BodyLine;
  readonly sign: AngleSign;
}

/**
 * The two lines whose angle is a joint's, both pointing away from the trunk so that 0° is in line.
 *
 * @param trunkFromBothSides whether the trunk runs between the middles of shoulders and hips, or along the named
 *   side (the other one is hidden in a side view).
 */
export function jointGeometry(joint: JointAngle, side: Side, trunkFromBothSides: boolean): JointGeometry {
  const point = (name: 'shoulder' | 'elbow' | 'wrist' | 'hip' | 'knee' | 'ankle') =>
    KEYPOINT_INDEX[`${side}-${name}`];
  const line = (from: number, to: number): BodyLine => ({ from: [from], to: [to] });
  const trunk: BodyLine = trunkFromBothSides ? trunkLine('both') : trunkLine(side);
  const upperArm = line(point('shoulder'), point('elbow'));
  const thigh = line(point('hip'), point('knee'));
  switch (joint) {
    case 'elbow-flexion':
      return { first: upperArm, second: line(point('elbow'), point('wrist')), sign: 'hinge' };
    case 'knee-flexion':
      return { first: thigh, second: line(point('knee'), point('ankle')), sign: 'hinge' };
    case 'hip-flexion':
      return { first: trunk, second: thigh, sign: 'hinge' };
    case 'shoulder-flexion':
      return { first: trunk, second: upperArm, sign: 'forward' };
    case 'shoulder-abduction':
      return { first: trunk, second: upperArm, sign: 'outward' };
    case 'shoulder-elevation':
      return { first: trunk, second: upperArm, sign: 'outward' };
    case 'shoulder-horizontal-abduction': {
      const other = KEYPOINT_INDEX[side === 'left' ? 'right-shoulder' : 'left-shoulder'];
      return { first: line(other, point('shoulder')), second: upperArm, sign: 'complement' };
    }
  }
}

/** The trunk from shoulder to hip: of one side, or between the middles. */
export function trunkLine(side: Side | 'both'): BodyLine {
  const sides: readonly Side[] = side === 'both' ? ['left', 'right'] : [side];
  return {
    from: sides.map((name) => KEYPOINT_INDEX[`${name}-shoulder`]),
    to: sides.map((name) => KEYPOINT_INDEX[`${name}-hip`]),
  };
}

export function keypointsOf(...lines: readonly BodyLine[]): readonly number[] {
  return [...new Set(lines.flatMap((line) => [...line.from, ...line.to]))];
}
