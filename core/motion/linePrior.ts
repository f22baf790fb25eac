import { KEYPOINT_INDEX } from '../pose/keypoints.js';
import { type LinePrior, YAW_DEGREES } from './depth.js';
import { HALF_WIDTH_ERRORS } from './interval.js';
import type { JointAngle } from './jointAngle.js';
import type { BodyLine } from './jointGeometry.js';
import { lengthInTorsos, type Segment } from './segments.js';
import type { View } from './view.js';

/** Standard deviation of how far limbs move out of the plane their exercise is named for, degrees. */
const LIMB_YAW_ERROR = 12;
/** Share of elbow work whose plane is neither sagittal nor frontal (flared elbows), taken as anywhere. */
const ANYWHERE_SHARE = 0.3;
/** Lengths vary by about 5 % from person to person; the scale of the body in the picture is known to about 8 %. */
const LENGTH_ERROR = 0.1;

const SEGMENT_OF: ReadonlyMap<number, Segment> = new Map([
  [KEYPOINT_INDEX['left-elbow'], 'upperArm'],
  [KEYPOINT_INDEX['right-elbow'], 'upperArm'],
  [KEYPOINT_INDEX['left-wrist'], 'forearm'],
  [KEYPOINT_INDEX['right-wrist'], 'forearm'],
  [KEYPOINT_INDEX['left-knee'], 'thigh'],
  [KEYPOINT_INDEX['right-knee'], 'thigh'],
  [KEYPOINT_INDEX['left-ankle'], 'shank'],
  [KEYPOINT_INDEX['right-ankle'], 'shank'],
]);

/** What is known of a body line before its appearances are looked at: its usual length and the plane of the joint's movement. */
export function linePrior(line: BodyLine, joint: JointAngle, view: View, sizePixels: number): LinePrior {
  const segment = SEGMENT_OF.get(line.to[0]!) ?? 'trunk';
  const lengthPixels = sizePixels * lengthInTorsos(segment);
  return { lengthPixels, lengthError: LENGTH_ERROR * lengthPixels, yawWeights: yawWeights(joint, view) };
}

function yawWeights(joint: JointAngle, view: View): readonly number[] {
  const error = Math.hypot(view.uncertaintyDegrees / HALF_WIDTH_ERRORS, LIMB_YAW_ERROR);
  // The yaw has no sign in parallel projection, so what lies beyond the picture plane folds back.
  const about = (centre: number) =>
    YAW_DEGREES.map(
      (yaw) =>
        Math.exp(-(((yaw - centre) / error) ** 2) / 2) + Math.exp(-(((yaw + centre) / error) ** 2) / 2),
    );
  const sagittal = about(view.degreesOffSide);
  const frontal = about(90 - view.degreesOffSide);
  switch (joint) {
    case 'shoulder-abduction':
      return normalized(frontal);
    case 'elbow-flexion':
    case 'shoulder-elevation': {
      const [a, b] = [normalized(sagittal), normalized(frontal)];
      const inPlane = (1 - ANYWHERE_SHARE) / 2;
      return YAW_DEGREES.map(
        (_, at) => inPlane * a[at]! + inPlane * b[at]! + ANYWHERE_SHARE / YAW_DEGREES.length,
      );
    }
    default:
      return normalized(sagittal);
  }
}

function normalized(weights: readonly number[]): readonly number[] {
  const sum = weights.reduce((total, weight) => total + weight, 0);
  return weights.map((weight) => weight / sum);
}
