import { KEYPOINT_COUNT, KEYPOINT_INDEX, type Side } from '../pose/keypoints.js';
import { angleBetweenDegrees, turnDegrees, type Vector } from './angles.js';
import type { Body } from './body.js';
import { inSpace, type Lens, likelyYaws, meanYaws, type SeenLine, yawPosterior } from './depth.js';
import type { JointAngle } from './jointAngle.js';
import { type BodyLine, type JointGeometry, jointGeometry, keypointsOf, trunkLine } from './jointGeometry.js';
import { linePrior } from './movementPlanes.js';
import type { Samples } from './samples.js';
import { bodySizePixels, type View } from './view.js';

/** Why a joint's degrees, or all of it, cannot be trusted. */
export type JointDoubt = 'far-limb-hidden' | 'joint-not-visible' | 'view-too-oblique' | 'view-not-frontal';

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
}

/** Nearer to the side than this, the limb behind the body is hidden, and the trunk is read along the near side. */
const SIDE_VIEW_DEGREES = 20;
/** Farther from the side than this, the depth of angles in the sagittal plane cannot be told. */
const MOST_OBLIQUE_DEGREES = 65;
const SAGITTAL: ReadonlySet<JointAngle> = new Set(['knee-flexion', 'hip-flexion', 'shoulder-flexion']);
/** Nearer to the side than this, angles in the frontal plane cannot be read. */
const LEAST_FRONTAL_DEGREES = 25;
/** From here on it is a front or back view, in which elbows move in any plane. */
const FRONTAL_VIEW_DEGREES = 60;
/** Degrees are given while not knowing the plane of movement makes the range uncertain by less than this (one deviation). */
const LARGEST_ERROR_FROM_VIEW = 8;
/** A joint seen in less than this share of the frames is not visible. */
const LEAST_SEEN_SHARE = 0.5;
/** A hinge is signed when at least this share of its clearly bent frames bends the same way. */
const HINGE_AGREEMENT = 0.9;
const CLEARLY_BENT_DEGREES = 25;

/** One joint of one side over the frames in which all its points were seen. */
export function jointSamples(body: Body, joint: JointAngle, side: Side, view: View): JointSamples {
  const geometry = jointGeometry(joint, side, view.degreesOffSide > SIDE_VIEW_DEGREES);
  const planes = planesOf(body, geometry, joint, view);
  const positive = orientationOf(body, geometry, side, view);
  const samples = collect(body, keypointsOf(geometry.first, geometry.second), (frame) => {
    return (points) => jointDegrees(geometry, planes.mean, points, positive(frame));
  });
  const seenShare = body.frames === 0 ? 0 : samples.seconds.length / body.frames;
  const rangeError = rangeErrorDegrees(body, geometry, planes, samples);
  const reason = doubt(joint, side, view, seenShare, rangeError.fromView);
  return {
    ...samples,
    correction: planes.corrected ? 'out-of-plane' : 'flat',
    degreesTrustworthy: reason === null,
    reason,
    sharedUncertaintyDegrees: 1.96 * Math.hypot(rangeError.fromView, rangeError.fromKeypoints),
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

function doubt(
  joint: JointAngle,
  side: Side,
  view: View,
  seenShare: number,
  rangeErrorFromView: number,
): JointDoubt | null {
  if (view.nearSide !== null && side !== view.nearSide && view.degreesOffSide < SIDE_VIEW_DEGREES) {
    return 'far-limb-hidden';
  }
  if (seenShare < LEAST_SEEN_SHARE) return 'joint-not-visible';
  const frontalPlane = joint === 'shoulder-abduction' || joint === 'shoulder-horizontal-abduction';
  if (frontalPlane && view.degreesOffSide < LEAST_FRONTAL_DEGREES) return 'view-not-frontal';
  if (SAGITTAL.has(joint) && view.degreesOffSide > MOST_OBLIQUE_DEGREES) return 'view-too-oblique';
  return rangeErrorFromView > LARGEST_ERROR_FROM_VIEW ? 'view-too-oblique' : null;
}

/** Positions of the keypoints of one frame, pixels; a copy that may be nudged. */
interface Points {
  readonly x: Float64Array;
  readonly y: Float64Array;
}

type Orientation = -1 | 0 | 1;

/** Which way of turning in the picture is positive in a frame: 1 clockwise, -1 counter-clockwise, 0 without a sign. */
function orientationOf(
  body: Body,
  geometry: JointGeometry,
  side: Side,
  view: View,
): (frame: number) => Orientation {
  const forward: Orientation = view.forward === 0 ? 0 : view.forward === 1 ? -1 : 1;
  switch (geometry.sign) {
    case 'hinge': {
      const hinge = hingeOrientation(body, geometry);
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

/** Yaw of the vertical planes in which a joint's two lines move, degrees, with the lens that sees them. */
interface Planes {
  readonly first: number;
  readonly second: number;
  readonly lens: Lens;
  readonly centre: Vector;
}

interface PossiblePlanes {
  readonly mean: Planes;
  readonly likely: readonly { readonly planes: Planes; readonly weight: number }[];
  readonly corrected: boolean;
}

function planesOf(body: Body, geometry: JointGeometry, joint: JointAngle, view: View): PossiblePlanes {
  const lens = lensOf(body, joint, view);
  const centre = { x: body.width / 2, y: body.height / 2 };
  if (geometry.sign === 'complement' || body.torsoPixels === 0) {
    return { mean: { first: 0, second: 0, lens, centre }, likely: [], corrected: false };
  }
  const keypoints = keypointsOf(geometry.first, geometry.second);
  const first: SeenLine[] = [];
  const second: SeenLine[] = [];
  for (const { points } of seenFrames(body, keypoints)) {
    first.push(seenLine(geometry.first, points, centre));
    second.push(seenLine(geometry.second, points, centre));
  }
  const size = bodySizePixels(body);
  const posterior = yawPosterior(
    { frames: first, prior: linePrior(geometry.first, joint, view, size) },
    { frames: second, prior: linePrior(geometry.second, joint, view, size) },
    lens,
    size,
  );
  const likely = likelyYaws(posterior).map(({ first, second, weight }) => ({
    planes: { first, second, lens, centre },
    weight,
  }));
  return { mean: { ...meanYaws(posterior), lens, centre }, likely, corrected: true };
}

/** Usual focal length of a phone's main camera over the long side of its picture (common practice, no source). */
const FOCAL_SHARE = 0.95;

function lensOf(body: Body, joint: JointAngle, view: View): Lens {
  const focalPixels = FOCAL_SHARE * Math.max(body.width, body.height, 1);
  const sagittal =
    joint !== 'shoulder-abduction' && (joint !== 'elbow-flexion' || view.degreesOffSide <= FRONTAL_VIEW_DEGREES);
  const known = sagittal && view.fromFront !== null && view.forward !== 0;
  return { focalPixels, rightIsNearer: known ? (view.fromFront ? view.forward : (-view.forward as -1 | 1)) : 0 };
}

function seenLine(line: BodyLine, points: Points, centre: Vector): SeenLine {
  const { x, y } = direction(line, points);
  const end = middle(line.to, points);
  return { x, y, endX: end.x - centre.x, endY: end.y - centre.y };
}

/** Lasting error of a keypoint against its joint centre, in torso lengths: it differs from pose to pose. */
const POSED_ERROR_TORSOS = 0.02;

/**
 * Standard deviation of the error of the range, degrees: from not knowing the planes of movement, and from keypoints
 * that sit off their joint centres by amounts that change with the pose (averaging frames lessens neither).
 */
function rangeErrorDegrees(
  body: Body,
  geometry: JointGeometry,
  planes: PossiblePlanes,
  samples: Samples,
): { readonly fromView: number; readonly fromKeypoints: number } {
  const keypoints = keypointsOf(geometry.first, geometry.second);
  const frames = [...seenFrames(body, keypoints)];
  if (frames.length === 0 || samples.values.length !== frames.length) return { fromView: 90, fromKeypoints: 90 };
  const order = frames.map((_, index) => index).sort((a, b) => samples.values[a]! - samples.values[b]!);
  const ends = [0.05, 0.95].map((share) => frames[order[Math.round(share * (order.length - 1))]!]!);
  const rangeIn = (one: Planes) =>
    jointDegrees(geometry, one, ends[1]!.points, 0) - jointDegrees(geometry, one, ends[0]!.points, 0);
  const middleRange = rangeIn(planes.mean);
  let variance = 0;
  for (const { planes: possible, weight } of planes.likely) {
    variance += weight * (rangeIn(possible) - middleRange) ** 2;
  }
  const fromKeypoints = ends.map(({ points }) =>
    propagatedError(
      keypoints,
      points,
      () => POSED_ERROR_TORSOS * body.torsoPixels,
      body.torsoPixels,
      (nudged) => jointDegrees(geometry, planes.mean, nudged, 0),
    ),
  );
  return { fromView: Math.sqrt(variance), fromKeypoints: Math.hypot(...fromKeypoints) };
}

function jointDegrees(
  geometry: JointGeometry,
  planes: Planes,
  points: Points,
  positive: Orientation,
): number {
  const first = inSpace(seenLine(geometry.first, points, planes.centre), planes.first, planes.lens);
  const second = inSpace(seenLine(geometry.second, points, planes.centre), planes.second, planes.lens);
  const angle = angleBetweenDegrees(first, second);
  if (geometry.sign === 'complement') return 90 - angle;
  if (positive === 0) return angle;
  const signed = Math.sign(turnDegrees(first, second)) * positive * angle;
  // Arms go further up than they go back: the cut lies behind the trunk, not overhead.
  return signed < -100 ? signed + 360 : signed;
}

/** Which way a hinge bends in the picture over the whole film; 0 where it bends both ways or hardly at all. */
function hingeOrientation(body: Body, geometry: JointGeometry): Orientation {
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
    const error = (keypoint: number) => body.standardErrorPixels[frame * KEYPOINT_COUNT + keypoint]!;
    standardErrors.push(propagatedError(keypoints, points, error, body.torsoPixels, quantity));
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

/** Error of a quantity to first order from the errors of its keypoints, by nudging each coordinate. */
function propagatedError(
  keypoints: readonly number[],
  points: Points,
  errorOf: (keypoint: number) => number,
  torsoPixels: number,
  quantity: (points: Points) => number,
): number {
  const nudge = Math.max(1e-3 * torsoPixels, 1e-6);
  let variance = 0;
  for (const keypoint of keypoints) {
    for (const coordinate of [points.x, points.y]) {
      const kept = coordinate[keypoint]!;
      coordinate[keypoint] = kept + nudge;
      const above = quantity(points);
      coordinate[keypoint] = kept - nudge;
      const below = quantity(points);
      coordinate[keypoint] = kept;
      const step = Math.abs(above - below);
      variance += (((step > 180 ? 360 - step : step) / (2 * nudge)) * errorOf(keypoint)) ** 2;
    }
  }
  return Math.min(LARGEST_STANDARD_ERROR, Math.sqrt(variance));
}

function direction(line: BodyLine, points: Points): Vector {
  const from = middle(line.from, points);
  const to = middle(line.to, points);
  return { x: to.x - from.x, y: to.y - from.y };
}

function middle(keypoints: readonly number[], points: Points): Vector {
  const mean = (values: Float64Array) =>
    keypoints.reduce((sum, keypoint) => sum + values[keypoint]!, 0) / keypoints.length;
  return { x: mean(points.x), y: mean(points.y) };
}
