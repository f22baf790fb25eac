import { KEYPOINT_COUNT, KEYPOINT_INDEX, type Side } from '../pose/keypoints.js';
import { toRadians } from './angles.js';
import type { AngleCurve } from './anglesInStep.js';
import type { Body } from './body.js';
import type { JointAngle } from './jointAngle.js';
import { CHAIN, type KeypointPath, nearestShare, pathsBetween, stepAt } from './keypointPaths.js';
import {
  type Ends,
  endsOfKeypoints,
  framesWithin,
  rangeWithin,
  type Stretch,
  stretched,
} from './postureEnds.js';
import { median } from './robust.js';
import { planeOutOfPicture, turnedLimbs } from './turningPlane.js';

/** An angle as the whole body's posture tells it, degrees. */
export interface EvenTurning extends AngleCurve {
  /**
   * How far keypoints lie beside their expected paths half-way, over how far they travel: near 0 where the limbs turn
   * evenly, as the angle is read here; larger where some limbs lead and others follow.
   */
  readonly misfit: number;
}

export interface EvenTurningOptions extends Stretch {
  readonly joint: JointAngle;
  /** Whose limbs make the movement. */
  readonly sides: readonly Side[];
  /** How far the plane of movement is turned out of the picture as the view has it; 0 from the side. */
  readonly outOfPictureDegrees: number;
}

/** Half-way, for the misfit: between these shares. */
const HALF_WAY = [0.25, 0.75] as const;
/**
 * What lies further beside its path half-way than this share of its way goes a way of its own, a trunk that bows and comes up
 * again say; of what hardly travels, than this share of the least way.
 */
const OWN_WAY_SHARE = 0.1;
const LEAST_WAY_TORSOS = 0.3;
/**
 * Of the turn out of the picture so much is undone: at 45° limbs that turn far say 48 ± 4° (75 films), and between postures bent
 * by the pose model a plane taken as too oblique bends the way more than one taken as too square.
 */
const UNDONE_SHARE = 0.9;
/** A plane turned further out of the picture than this shows too little of itself to undo it. */
const FURTHEST_DEGREES = 60;

/**
 * Tells an angle from where the whole body is between its postures at both ends of the range.
 *
 * A joint angle rests on three neighbouring keypoints, and the pose model misplaces them by as much as the joint moves
 * them in a good part of its range, in a way that comes back with the pose. What travels far, head, shoulders and hands
 * mostly, is misplaced by as much and yet by a small share of its way; only that its way is not even in the angle. So the
 * way is worked out: limbs, hanging from one another, turn evenly from their lean at one end of the range to that at the
 * other. Each frame then has the share of the turn whose keypoints lie nearest. Of the posture in between nothing is
 * assumed from the model's answers there, but that what goes a way of its own is left out.
 *
 * @param angle the joint angle as seen so far: it only tells which frames show the ends, and scales the result
 * @returns null where the ends cannot be told
 */
export function evenTurning(body: Body, angle: AngleCurve, options: EvenTurningOptions): EvenTurning | null {
  const range = rangeWithin(angle, options);
  if (range === null || body.torsoPixels === 0) return null;
  const ends = endsOfKeypoints(body, angle, range, options);
  const sidewaysStretch = stretchOf(body, ends, options);
  const frames = framesWithin(body, options);
  const sharesBy = (paths: readonly KeypointPath[]) =>
    frames.map((frame) => nearestShare(body, frame, paths, sidewaysStretch));
  const all = pathsBetween(stretched(ends, sidewaysStretch), options.sides);
  const around = keypointsAround(options);
  const ofJoint = all.filter(({ keypoint }) => around.includes(keypoint));
  const astray = besideHalfWay(body, frames, sharesBy(ofJoint), all, sidewaysStretch);
  const paths = all.filter((path, index) => {
    const way = Math.max(path.way, LEAST_WAY_TORSOS * body.torsoPixels);
    return ofJoint.includes(path) || astray[index]! < OWN_WAY_SHARE * way;
  });
  const way = sumOfSquares(paths.map((path) => path.way));
  const shares = sharesBy(paths);
  const seen = frames.flatMap((frame, index) => {
    const share = shares[index]!;
    return share === null ? [] : [{ seconds: body.seconds[frame]!, share }];
  });
  if (seen.length === 0 || way === 0) return null;
  const off = sumOfSquares(besideHalfWay(body, frames, shares, paths, sidewaysStretch));
  return {
    seconds: Float64Array.from(seen, ({ seconds }) => seconds),
    values: Float64Array.from(seen, ({ share }) => range.low + share * (range.high - range.low)),
    misfit: Math.sqrt(off / way),
  };
}

/** The joint itself and its neighbours along the chain. */
function keypointsAround({ joint, sides }: EvenTurningOptions): readonly number[] {
  const at = CHAIN.findIndex((name) => joint.startsWith(name));
  return sides.flatMap((side) =>
    CHAIN.slice(at - 1, at + 2).map((name) => KEYPOINT_INDEX[`${side}-${name}`]),
  );
}

/** How far each path's keypoint commonly lies beside it half-way, pixels, its frames having these shares of the way. */
function besideHalfWay(
  body: Body,
  frames: readonly number[],
  shares: readonly (number | null)[],
  paths: readonly KeypointPath[],
  sidewaysStretch: number,
): readonly number[] {
  return paths.map(({ keypoint, x, y }) => {
    const beside: { readonly x: number[]; readonly y: number[] } = { x: [], y: [] };
    frames.forEach((frame, index) => {
      const share = shares[index]!;
      const at = frame * KEYPOINT_COUNT + keypoint;
      if (share === null || share < HALF_WAY[0] || share > HALF_WAY[1] || body.seen[at] !== 1) return;
      const step = stepAt(share);
      beside.x.push(body.x[at]! - x[step]! / sidewaysStretch);
      beside.y.push(body.y[at]! - y[step]!);
    });
    return Math.hypot(median(beside.x) ?? 0, median(beside.y) ?? 0);
  });
}

/** By how much the picture is to be stretched sideways to undo the foreshortening of the plane in which the limbs turn. */
function stretchOf(body: Body, ends: Ends, { sides, outOfPictureDegrees }: EvenTurningOptions): number {
  const { degrees } = planeOutOfPicture(turnedLimbs(ends, sides, body.torsoPixels), outOfPictureDegrees);
  return 1 / Math.cos(toRadians(UNDONE_SHARE * Math.min(FURTHEST_DEGREES, degrees)));
}

function sumOfSquares(values: readonly number[]): number {
  return values.reduce((sum, value) => sum + value * value, 0);
}
