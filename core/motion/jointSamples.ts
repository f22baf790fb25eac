import type { Side } from '../pose/keypoints.js';
import { turnDegrees, type Vector } from './angles.js';
import { bendDirection } from './bendDirection.js';
import type { Body } from './body.js';
import { HALF_WIDTH_ERRORS } from './interval.js';
import type { JointAngle } from './jointAngle.js';
import { atJointCentres } from './jointCentres.js';
import { jointGeometry, keypointsOf, trunkLine } from './jointGeometry.js';
import { jointDegrees, movementPlanes } from './movementPlanes.js';
import { isPlausible } from './normalRanges.js';
import { rangeErrorDegrees } from './rangeError.js';
import type { Samples } from './samples.js';
import { collect, direction, type Points, seenFrames } from './seenFrames.js';
import { FRONTAL_DEGREES, SIDE_VIEW_DEGREES, type View } from './view.js';

/** Why a joint's degrees cannot be trusted, though its times can. */
const DOUBTS_OF_DEGREES = [
  'view-too-oblique',
  'view-not-frontal',
  'limb-out-of-plane',
  'joint-at-edge',
] as const;
type DoubtOfDegrees = (typeof DOUBTS_OF_DEGREES)[number];

/** Why a joint's degrees, or all of it, cannot be trusted. */
export type JointDoubt = 'far-limb-hidden' | 'joint-not-visible' | DoubtOfDegrees;

/** Whether a doubt, or the finding of its name, takes the degrees alone. */
export function leavesTimes(reason: string | null): reason is DoubtOfDegrees {
  return DOUBTS_OF_DEGREES.some((doubt) => doubt === reason);
}

/** A joint angle over time, degrees, with what it is worth. */
export interface JointSamples extends Samples {
  readonly correction: 'flat' | 'out-of-plane';
  /** False where timing may be used but degrees would mislead. */
  readonly degreesTrustworthy: boolean;
  /** The weightiest reason for doubt; null where there is none. */
  readonly reason: JointDoubt | null;
  /** Half width of the 95 % interval of the error that all reps' ranges share (plane of movement, keypoint offsets), degrees. */
  readonly sharedUncertaintyDegrees: number;
  /** Share of the body's frames in which the joint was seen, 0 to 1. */
  readonly seenShare: number;
  /** Own length of the joint's less steady line when it looks short over when it looks long, 0 to 1. */
  readonly steadiness: number;
}

const SAGITTAL: ReadonlySet<JointAngle> = new Set(['knee-flexion', 'hip-flexion', 'shoulder-flexion']);
/** Nearer to the side than this, angles in the frontal plane cannot be read. */
const LEAST_FRONTAL_DEGREES = 25;
/**
 * A limb whose own length, as worked out from its plane of movement, still shrinks below this share of itself leaves
 * that plane (points at the camera): its angles cannot be read.
 */
const LEAST_STEADINESS = 0.62;
/** Degrees are given while not knowing the plane of movement makes the range uncertain by less than this (one deviation). */
const LARGEST_ERROR_FROM_VIEW = 8;
/** And while the whole of what all reps share is less than this (half width of the 95 % interval): wider tells nothing. */
const LARGEST_SHARED_UNCERTAINTY = 20;
/**
 * A plane of movement turned further out of the picture than this shows too little of itself, whatever the fit says of
 * its own error.
 */
const LARGEST_YAW_DEGREES = 55;
/** In a side view legs, trunk and a flexing shoulder stay near the picture's plane unless their length shrinks to this. */
const LEAST_STEADINESS_FROM_SIDE = 0.5;
/** A joint seen in less than this share of the frames is not visible. */
export const LEAST_SEEN_SHARE = 0.5;

/** A point this near the picture's edge, as a share of the picture's size, may lie beyond it: the model puts it at the edge. */
const EDGE_SHARE = 0.015;
/** A joint with a point at the edge in more than this share of its frames is cut off by the picture. */
const LARGEST_SHARE_AT_EDGE = 0.3;

/** One joint of one side over the frames in which all its points were seen. */
export function jointSamples(asSeen: Body, joint: JointAngle, side: Side, view: View): JointSamples {
  const body = atJointCentres(asSeen, view);
  const geometry = jointGeometry(joint, side, view.degreesOffSide > SIDE_VIEW_DEGREES);
  const planes = movementPlanes(body, geometry, joint, view);
  const positive = bendDirection(body, geometry, side, view);
  // Where the limb leaves the plane, lifting it only bends the curve: the picture's own angle times it better.
  const inPlane = planes.steadiness >= LEAST_STEADINESS;
  const used = inPlane ? planes.mean : { ...planes.mean, first: 0, second: 0 };
  const samples = collect(
    body,
    keypointsOf(geometry.first, geometry.second),
    (frame) => (points) => jointDegrees(geometry, used, points, positive(frame)),
    (degrees) => isPlausible(joint, degrees),
  );
  const seenShare = body.frames === 0 ? 0 : samples.seconds.length / body.frames;
  const rangeError = rangeErrorDegrees(body, geometry, planes, samples);
  const sharedUncertaintyDegrees =
    HALF_WIDTH_ERRORS * Math.hypot(rangeError.fromView, rangeError.fromKeypoints);
  const reason = doubt(joint, side, view, {
    seenShare,
    shareAtEdge: shareAtEdge(body, keypointsOf(geometry.first, geometry.second)),
    sharedUncertaintyDegrees,
    rangeError: rangeError.fromView,
    steadiness: planes.steadiness,
    yawDegrees: Math.max(planes.mean.first, planes.mean.second),
  });
  return {
    ...samples,
    correction: planes.corrected && inPlane ? 'out-of-plane' : 'flat',
    degreesTrustworthy: reason === null,
    reason,
    sharedUncertaintyDegrees,
    seenShare,
    steadiness: planes.steadiness,
  };
}

/**
 * Lean of the trunk from the vertical in the picture, degrees: forward is positive where the view tells which way
 * that is, else towards the right of the picture.
 */
export function trunkLean(body: Body, view: View): Samples {
  const trunk = trunkLine(
    view.nearSide !== null && view.degreesOffSide <= SIDE_VIEW_DEGREES ? view.nearSide : 'both',
  );
  const up: Vector = { x: 0, y: -1 };
  const sign = view.forward === 0 ? 1 : view.forward;
  const lean = (points: Points) => {
    const down = direction(trunk, points);
    return sign * turnDegrees(up, { x: -down.x, y: -down.y });
  };
  return collect(body, keypointsOf(trunk), () => lean);
}

/** The samples of one side, or the mean of two. */
export function oneOrBothSides([first, second]: readonly JointSamples[]): JointSamples {
  return second === undefined ? first! : meanOfSides(first!, second);
}

/** `sharedUncertaintyDegrees`, or null where there are no true degrees. */
export function sharedUncertaintyOf({
  degreesTrustworthy,
  sharedUncertaintyDegrees,
}: JointSamples): number | null {
  return degreesTrustworthy ? sharedUncertaintyDegrees : null;
}

/**
 * The weighted mean of both sides at the times when both were seen. Weights are the inverse squares of each side's
 * whole error: its keypoints' noise, and what its view and plane of movement leave open, so that from an oblique view
 * the limb that lies more in the picture counts for more. Where one side's degrees cannot be trusted the mean's cannot
 * either: from front or back both limbs stand alike to the camera, and what misleads about one may about the other.
 */
export function meanOfSides(left: JointSamples, right: JointSamples): JointSamples {
  const seconds: number[] = [];
  const values: number[] = [];
  const standardErrors: number[] = [];
  const weightOf = (side: JointSamples, index: number) =>
    1 / (side.standardErrors[index]! ** 2 + (side.sharedUncertaintyDegrees / HALF_WIDTH_ERRORS) ** 2);
  let other = 0;
  left.seconds.forEach((time, index) => {
    while (other < right.seconds.length && right.seconds[other]! < time) other += 1;
    if (right.seconds[other] !== time) return;
    const share = weightOf(left, index) / (weightOf(left, index) + weightOf(right, other));
    seconds.push(time);
    values.push(share * left.values[index]! + (1 - share) * right.values[other]!);
    standardErrors.push(
      Math.hypot(share * left.standardErrors[index]!, (1 - share) * right.standardErrors[other]!),
    );
  });
  return {
    seconds: Float64Array.from(seconds),
    values: Float64Array.from(values),
    standardErrors: Float64Array.from(standardErrors),
    correction:
      left.correction === 'out-of-plane' || right.correction === 'out-of-plane' ? 'out-of-plane' : 'flat',
    degreesTrustworthy: left.degreesTrustworthy && right.degreesTrustworthy,
    reason: left.reason ?? right.reason,
    // Both sides may err the same way, so averaging is not taken to help beyond the better one.
    sharedUncertaintyDegrees: Math.min(left.sharedUncertaintyDegrees, right.sharedUncertaintyDegrees),
    seenShare: Math.min(left.seenShare, right.seenShare),
    steadiness: Math.min(left.steadiness, right.steadiness),
  };
}

/** In what share of the frames that show all these keypoints one of them lies at the picture's edge. */
function shareAtEdge(body: Body, keypoints: readonly number[]): number {
  let [frames, atEdge] = [0, 0];
  for (const { points } of seenFrames(body, keypoints)) {
    frames += 1;
    const [marginX, marginY] = [EDGE_SHARE * body.width, EDGE_SHARE * body.height];
    const isAtEdge = (keypoint: number) => {
      const [x, y] = [points.x[keypoint]!, points.y[keypoint]!];
      return x < marginX || y < marginY || x > body.width - marginX || y > body.height - marginY;
    };
    if (keypoints.some(isAtEdge)) atEdge += 1;
  }
  return frames === 0 ? 0 : atEdge / frames;
}

function doubt(
  joint: JointAngle,
  side: Side,
  view: View,
  facts: {
    readonly seenShare: number;
    readonly shareAtEdge: number;
    readonly rangeError: number;
    readonly steadiness: number;
    readonly yawDegrees: number;
    readonly sharedUncertaintyDegrees: number;
  },
): JointDoubt | null {
  if (view.nearSide !== null && side !== view.nearSide && view.degreesOffSide < SIDE_VIEW_DEGREES) {
    return 'far-limb-hidden';
  }
  if (facts.seenShare < LEAST_SEEN_SHARE) return 'joint-not-visible';
  if (facts.shareAtEdge > LARGEST_SHARE_AT_EDGE) return 'joint-at-edge';
  const frontalPlane = joint === 'shoulder-abduction' || joint === 'shoulder-horizontal-abduction';
  if (frontalPlane && view.degreesOffSide < LEAST_FRONTAL_DEGREES) return 'view-not-frontal';
  // From front or back, the depth of angles in the sagittal plane cannot be told.
  if (SAGITTAL.has(joint) && view.degreesOffSide > FRONTAL_DEGREES) return 'view-too-oblique';
  const fromSide = view.degreesOffSide <= SIDE_VIEW_DEGREES;
  if (fromSide && SAGITTAL.has(joint)) {
    return facts.steadiness < LEAST_STEADINESS_FROM_SIDE ? 'limb-out-of-plane' : null;
  }
  const unexplained =
    facts.steadiness < LEAST_STEADINESS ||
    facts.rangeError > LARGEST_ERROR_FROM_VIEW ||
    facts.yawDegrees > LARGEST_YAW_DEGREES ||
    facts.sharedUncertaintyDegrees > LARGEST_SHARED_UNCERTAINTY;
  if (!unexplained) return null;
  return fromSide ? 'limb-out-of-plane' : 'view-too-oblique';
}
