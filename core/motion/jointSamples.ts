import { KEYPOINT_COUNT, KEYPOINT_INDEX, type Side } from '../pose/keypoints.js';
import { angleBetweenDegrees, turnDegrees, type Vector } from './angles.js';
import type { Body } from './body.js';
import type { JointAngle } from './jointAngle.js';
import { type BodyLine, type JointGeometry, jointGeometry, keypointsOf, trunkLine } from './jointGeometry.js';
import type { Samples } from './samples.js';
import type { View } from './view.js';

/** Why a joint's degrees, or all of it, cannot be trusted. */
export type JointDoubt = 'far-limb-hidden' | 'joint-not-visible' | 'view-too-oblique' | 'view-not-frontal';

/** A joint angle over time, degrees, with what it is worth. */
export interface JointSamples extends Samples {
  readonly correction: 'flat' | 'out-of-plane';
  /** False where timing may be used but degrees would mislead. */
  readonly degreesTrustworthy: boolean;
  /** The weightiest reason for doubt; null where there is none. */
  readonly reason: JointDoubt | null;
  /** Half width of the 95 % interval of an error shared by all values (view, proportions), degrees. */
  readonly sharedUncertaintyDegrees: number;
  /** Share of the body's frames in which the joint was seen, 0 to 1. */
  readonly seenShare: number;
}

/** Nearer to the side than this, the limb behind the body is hidden, and the trunk is read along the near side. */
const SIDE_VIEW_DEGREES = 20;
/** Farther from the side than this, angles in the sagittal plane read flat are off by more than 5°. */
const OBLIQUE_DEGREES = 25;
/** Nearer to the side than this, angles in the frontal plane cannot be read. */
const FRONTAL_VIEW_DEGREES = 60;
/** A joint seen in less than this share of the frames is not visible. */
const LEAST_SEEN_SHARE = 0.5;
/** A hinge is signed when at least this share of its clearly bent frames bends the same way. */
const HINGE_AGREEMENT = 0.9;
const CLEARLY_BENT_DEGREES = 25;

/** One joint of one side over the frames in which all its points were seen. */
export function jointSamples(body: Body, joint: JointAngle, side: Side, view: View): JointSamples {
  const geometry = jointGeometry(joint, side, view.degreesOffSide > SIDE_VIEW_DEGREES);
  const samples = angleSamples(body, geometry, (frame) => orientation(body, geometry, frame, side, view));
  const seenShare = body.frames === 0 ? 0 : samples.seconds.length / body.frames;
  const reason = doubt(joint, side, view, seenShare);
  return {
    ...samples,
    correction: 'flat',
    degreesTrustworthy: reason === null,
    reason,
    sharedUncertaintyDegrees: 4,
    seenShare,
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

/**
 * The confidence-weighted mean of both sides at the times when both were seen; both carry their own noise, so the
 * weights are the inverse squares of the standard errors.
 */
export function meanOfSides(left: JointSamples, right: JointSamples): JointSamples {
  const seconds: number[] = [];
  const values: number[] = [];
  const standardErrors: number[] = [];
  let other = 0;
  left.seconds.forEach((time, index) => {
    while (other < right.seconds.length && right.seconds[other]! < time) other += 1;
    if (right.seconds[other] !== time) return;
    const a = 1 / left.standardErrors[index]! ** 2;
    const b = 1 / right.standardErrors[other]! ** 2;
    seconds.push(time);
    values.push((a * left.values[index]! + b * right.values[other]!) / (a + b));
    standardErrors.push(1 / Math.sqrt(a + b));
  });
  return {
    seconds: Float64Array.from(seconds),
    values: Float64Array.from(values),
    standardErrors: Float64Array.from(standardErrors),
    correction:
      left.correction === 'out-of-plane' || right.correction === 'out-of-plane' ? 'out-of-plane' : 'flat',
    degreesTrustworthy: left.degreesTrustworthy && right.degreesTrustworthy,
    reason: left.reason ?? right.reason,
    sharedUncertaintyDegrees: Math.max(left.sharedUncertaintyDegrees, right.sharedUncertaintyDegrees),
    seenShare: Math.min(left.seenShare, right.seenShare),
  };
}

function doubt(joint: JointAngle, side: Side, view: View, seenShare: number): JointDoubt | null {
  if (view.nearSide !== null && side !== view.nearSide && view.degreesOffSide < SIDE_VIEW_DEGREES) {
    return 'far-limb-hidden';
  }
  if (seenShare < LEAST_SEEN_SHARE) return 'joint-not-visible';
  if (joint === 'shoulder-abduction' || joint === 'shoulder-horizontal-abduction') {
    return view.degreesOffSide < FRONTAL_VIEW_DEGREES ? 'view-not-frontal' : null;
  }
  if (joint === 'elbow-flexion' || joint === 'shoulder-elevation') {
    const oblique = view.degreesOffSide > OBLIQUE_DEGREES && view.degreesOffSide < FRONTAL_VIEW_DEGREES;
    return oblique ? 'view-too-oblique' : null;
  }
  return view.degreesOffSide > OBLIQUE_DEGREES ? 'view-too-oblique' : null;
}

/** Positions of the keypoints of one frame, pixels; a copy that may be nudged. */
interface Points {
  readonly x: Float64Array;
  readonly y: Float64Array;
}

type Orientation = -1 | 0 | 1;

/**
 * Which way of turning in the picture is positive: 1 clockwise, -1 counter-clockwise, 0 where the angle has no sign.
 */
function orientation(
  body: Body,
  geometry: JointGeometry,
  frame: number,
  side: Side,
  view: View,
): Orientation {
  switch (geometry.sign) {
    case 'forward':
      return view.forward === 0 ? 0 : view.forward === 1 ? -1 : 1;
    case 'outward': {
      if (view.degreesOffSide < SIDE_VIEW_DEGREES)
        return view.forward === 0 ? 0 : view.forward === 1 ? -1 : 1;
      const start = frame * KEYPOINT_COUNT;
      const left = body.x[start + KEYPOINT_INDEX['left-shoulder']]!;
      const right = body.x[start + KEYPOINT_INDEX['right-shoulder']]!;
      const outwardIsRight = side === 'left' ? left > right : right > left;
      return outwardIsRight ? -1 : 1;
    }
    default:
      return 0;
  }
}

function angleSamples(
  body: Body,
  geometry: JointGeometry,
  orientationOf: (frame: number) => Orientation,
): Samples {
  const keypoints = keypointsOf(geometry.first, geometry.second);
  const hinge = geometry.sign === 'hinge' ? hingeOrientation(body, geometry, keypoints) : 0;
  return collect(body, keypoints, (frame) => {
    const positive = geometry.sign === 'hinge' ? hinge : orientationOf(frame);
    return (points) => jointDegrees(geometry, points, positive);
  });
}

function jointDegrees(geometry: JointGeometry, points: Points, positive: Orientation): number {
  const first = direction(geometry.first, points);
  const second = direction(geometry.second, points);
  const angle = angleBetweenDegrees(first, second);
  if (geometry.sign === 'complement') return 90 - angle;
  if (positive === 0) return angle;
  const signed = Math.sign(turnDegrees(first, second)) * positive * angle;
  // Arms go further up than they go back: the cut lies behind the trunk, not overhead.
  return signed < -100 ? signed + 360 : signed;
}

/** Which way a hinge bends in the picture over the whole film; 0 where it bends both ways or hardly at all. */
function hingeOrientation(body: Body, geometry: JointGeometry, keypoints: readonly number[]): Orientation {
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

/** A quantity over the frames in which its keypoints were seen, with its error to first order from theirs. */
function collect(
  body: Body,
  keypoints: readonly number[],
  quantityOf: (frame: number) => (points: Points) => number,
): Samples {
  const seconds: number[] = [];
  const values: number[] = [];
  const standardErrors: number[] = [];
  for (const { frame, points } of seenFrames(body, keypoints)) {
    const quantity = quantityOf(frame);
    const value = quantity(points);
    if (Number.isNaN(value)) continue;
    seconds.push(body.seconds[frame]!);
    values.push(value);
    standardErrors.push(propagatedError(body, frame, keypoints, points, quantity));
  }
  return {
    seconds: Float64Array.from(seconds),
    values: Float64Array.from(values),
    standardErrors: Float64Array.from(standardErrors),
  };
}

function* seenFrames(
  body: Body,
  keypoints: readonly number[],
): Generator<{ readonly frame: number; readonly points: Points }> {
  for (let frame = 0; frame < body.frames; frame += 1) {
    const start = frame * KEYPOINT_COUNT;
    if (!keypoints.every((keypoint) => body.seen[start + keypoint] === 1)) continue;
    const x = Float64Array.from(body.x.subarray(start, start + KEYPOINT_COUNT));
    const y = Float64Array.from(body.y.subarray(start, start + KEYPOINT_COUNT));
    yield { frame, points: { x, y } };
  }
}

const LARGEST_STANDARD_ERROR = 90;

function propagatedError(
  body: Body,
  frame: number,
  keypoints: readonly number[],
  points: Points,
  quantity: (points: Points) => number,
): number {
  const nudge = Math.max(1e-3 * body.torsoPixels, 1e-6);
  let variance = 0;
  for (const keypoint of keypoints) {
    const error = body.standardErrorPixels[frame * KEYPOINT_COUNT + keypoint]!;
    for (const coordinate of [points.x, points.y]) {
      const kept = coordinate[keypoint]!;
      coordinate[keypoint] = kept + nudge;
      const above = quantity(points);
      coordinate[keypoint] = kept - nudge;
      const below = quantity(points);
      coordinate[keypoint] = kept;
      const step = Math.abs(above - below);
      variance += (((step > 180 ? 360 - step : step) / (2 * nudge)) * error) ** 2;
    }
  }
  return Math.min(LARGEST_STANDARD_ERROR, Math.sqrt(variance));
}

function direction(line: BodyLine, points: Points): Vector {
  const mean = (indexes: readonly number[], values: Float64Array) =>
    indexes.reduce((sum, index) => sum + values[index]!, 0) / indexes.length;
  return {
    x: mean(line.to, points.x) - mean(line.from, points.x),
    y: mean(line.to, points.y) - mean(line.from, points.y),
  };
}
