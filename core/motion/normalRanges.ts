import type { JointAngle } from './jointAngle.js';

/**
 * Normal joint ranges in degrees by the neutral-zero method, extension below zero: the widest group means published.
 *
 * Elbow, shoulder: Norkin and White, Measurement of Joint Motion, table A.1 (Boone and Azen; Greene and Wolf; Walker;
 * Macedo and Magee; AAOS; AMA). Knee and hip: Soucie et al. 2011, Haemophilia 17:500-507, the supplest group (girls of
 * 2 to 8). Elevation is counted like abduction; horizontal abduction from in front of the body: values from memory.
 */
export const NORMAL_RANGES: Readonly<Record<JointAngle, readonly [least: number, most: number]>> = {
  'elbow-flexion': [-5, 150],
  'knee-flexion': [-6, 153],
  'hip-flexion': [-28, 141],
  'shoulder-flexion': [-70, 188],
  'shoulder-abduction': [0, 188],
  'shoulder-elevation': [0, 188],
  'shoulder-horizontal-abduction': [-45, 135],
};

/** What people and the measurement may differ from those means, degrees. */
const ALLOWANCE_DEGREES = 25;

/** Whether a joint can be bent like that; beyond, a point of something else was taken for one of the joint's. */
export function isPlausible(joint: JointAngle, degrees: number): boolean {
  const [least, most] = NORMAL_RANGES[joint];
  return degrees >= least - ALLOWANCE_DEGREES && degrees <= most + ALLOWANCE_DEGREES;
}
