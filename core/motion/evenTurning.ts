import { mean } from 'simple-statistics';
import { KEYPOINT_COUNT, KEYPOINT_INDEX, type Side } from '../pose/keypoints.js';
import { toRadians, type Vector } from './angles.js';
import type { AngleCurve } from './anglesInStep.js';
import type { Body } from './body.js';
import type { JointAngle } from './jointAngle.js';
import { median, quantileOf } from './robust.js';
import { planeOutOfPicture } from './turningPlane.js';

/** An angle as the whole body's posture tells it, degrees. */
export interface EvenTurning extends AngleCurve {
  /**
   * How far keypoints lie beside their expected paths half-way, over how far they travel: near 0 where the limbs turn
   * evenly, as the angle is read here; larger where some limbs lead and others follow.
   */
  readonly misfit: number;
}

export interface EvenTurningOptions {
  readonly fromSeconds: number;
  readonly toSeconds: number;
  readonly joint: JointAngle;
  /** Whose limbs make the movement. */
  readonly sides: readonly Side[];
  /** How far the plane of movement is turned out of the picture as the view has it; 0 from the side. */
  readonly outOfPictureDegrees: number;
}

/** A limb hangs from limb: what moves least, hand or foot, stays, and the others turn about it. */
const CHAIN = ['wrist', 'elbow', 'shoulder', 'hip', 'knee', 'ankle'] as const;
const HEAD = [KEYPOINT_INDEX.nose, KEYPOINT_INDEX['left-ear'], KEYPOINT_INDEX['right-ear']];
/** Frames count for an end of the range while the angle is within this share of it. */
const END_SHARE = 0.1;
/** A keypoint seen in fewer frames than this at either end has no path. */
const FEWEST_AT_END = 5;
/** A frame in which fewer keypoints are seen has no share. */
const FEWEST_KEYPOINTS = 3;
/** Shares of the way that are tried: beyond both ends too, since reps differ. */
const SHARES: readonly number[] = Array.from({ length: 61 }, (_, step) => -0.25 + step / 40);
const SHARE_STEP = 1 / 40;
/** Keypoints further beside their path than this, in torsos, hardly count: a limb mistaken for another, say. */
const BESIDE_TORSOS = 0.03;
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
  const ends = endsOfKeypoints(body, framesAtEnds(body, angle, range, options));
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
      const step = Math.round((share - SHARES[0]!) / SHARE_STEP);
      beside.x.push(body.x[at]! - x[step]! / sidewaysStretch);
      beside.y.push(body.y[at]! - y[step]!);
    });
    return Math.hypot(median(beside.x) ?? 0, median(beside.y) ?? 0);
  });
}

interface Range {
  readonly low: number;
  readonly high: number;
}

type Stretch = Pick<EvenTurningOptions, 'fromSeconds' | 'toSeconds'>;

function rangeWithin(angle: AngleCurve, { fromSeconds, toSeconds }: Stretch): Range | null {
  const within = Array.from(angle.values).filter((_, index) => {
    const at = angle.seconds[index]!;
    return at >= fromSeconds && at <= toSeconds;
  });
  const [low, high] = [quantileOf(within, 0.05), quantileOf(within, 0.95)];
  return low === null || high === null || high <= low ? null : { low, high };
}

function framesWithin(body: Body, { fromSeconds, toSeconds }: Stretch): readonly number[] {
  return Array.from({ length: body.frames }, (_, frame) => frame).filter(
    (frame) => body.seconds[frame]! >= fromSeconds && body.seconds[frame]! <= toSeconds,
  );
}

interface FramesAtEnds {
  readonly low: readonly number[];
  readonly high: readonly number[];
}

function framesAtEnds(body: Body, angle: AngleCurve, { low, high }: Range, stretch: Stretch): FramesAtEnds {
  const margin = END_SHARE * (high - low);
  const valueAt = new Map(Array.from(angle.seconds, (at, index) => [at, angle.values[index]!]));
  const frames = framesWithin(body, stretch);
  const where = (holds: (value: number) => boolean) =>
    frames.filter((frame) => {
      const value = valueAt.get(body.seconds[frame]!);
      return value !== undefined && holds(value);
    });
  return { low: where((value) => value < low + margin), high: where((value) => value > high - margin) };
}

/** Where a keypoint is at both ends of the range. */
interface KeypointEnds {
  readonly keypoint: number;
  readonly low: Vector;
  readonly high: Vector;
}

/** By keypoint; those not seen well enough at both ends are left out. */
type Ends = ReadonlyMap<number, KeypointEnds>;

function endsOfKeypoints(body: Body, frames: FramesAtEnds): Ends {
  const ends = new Map<number, KeypointEnds>();
  for (let keypoint = 0; keypoint < KEYPOINT_COUNT; keypoint++) {
    const low = middleOf(body, keypoint, frames.low);
    const high = middleOf(body, keypoint, frames.high);
    if (low !== null && high !== null) ends.set(keypoint, { keypoint, low, high });
  }
  return ends;
}

function middleOf(body: Body, keypoint: number, frames: readonly number[]): Vector | null {
  const seen = frames.map((frame) => frame * KEYPOINT_COUNT + keypoint).filter((at) => body.seen[at] === 1);
  if (seen.length < FEWEST_AT_END) return null;
  return { x: median(seen.map((at) => body.x[at]!))!, y: median(seen.map((at) => body.y[at]!))! };
}

/** By how much the picture is to be stretched sideways to undo the foreshortening of the plane in which the limbs turn. */
function stretchOf(body: Body, ends: Ends, { sides, outOfPictureDegrees }: EvenTurningOptions): number {
  const inTorsos = (far: Vector, near: Vector) => ({
    x: (far.x - near.x) / body.torsoPixels,
    y: (far.y - near.y) / body.torsoPixels,
  });
  const limbs = sides.flatMap((side) =>
    CHAIN.slice(1).flatMap((joint, index) => {
      const near = ends.get(KEYPOINT_INDEX[`${side}-${CHAIN[index]!}`]);
      const far = ends.get(KEYPOINT_INDEX[`${side}-${joint}`]);
      if (near === undefined || far === undefined) return [];
      return [{ low: inTorsos(far.low, near.low), high: inTorsos(far.high, near.high) }];
    }),
  );
  const degrees = Math.min(FURTHEST_DEGREES, planeOutOfPicture(limbs, outOfPictureDegrees));
  return 1 / Math.cos(toRadians(UNDONE_SHARE * degrees));
}

function stretched(ends: Ends, sidewaysStretch: number): Ends {
  const wider = ({ x, y }: Vector) => ({ x: sidewaysStretch * x, y });
  return new Map(
    [...ends].map(([keypoint, { low, high }]) => [
      keypoint,
      { keypoint, low: wider(low), high: wider(high) },
    ]),
  );
}

/** Where a keypoint should be at each of `SHARES`, the picture stretched; `way` is its travel from end to end. */
interface KeypointPath {
  readonly keypoint: number;
  readonly x: Float64Array;
  readonly y: Float64Array;
  readonly way: number;
}

function pathsBetween(ends: Ends, sides: readonly Side[]): readonly KeypointPath[] {
  const limbs = sides.flatMap((side) =>
    limbPaths(CHAIN.map((joint) => ends.get(KEYPOINT_INDEX[`${side}-${joint}`]))),
  );
  const shoulders = sides.map((side) => KEYPOINT_INDEX[`${side}-shoulder`]);
  const paths = limbs.filter(({ keypoint }) => shoulders.includes(keypoint));
  if (paths.length === 0) return limbs;
  // The head hangs from the middle of the shoulders, so that a mirrored film is read alike.
  const shoulderEnds = paths.map(({ keypoint }) => ends.get(keypoint)!);
  const neck = {
    low: middlePoint(shoulderEnds.map(({ low }) => low)),
    high: middlePoint(shoulderEnds.map(({ high }) => high)),
  };
  const neckPath = middlePath(paths);
  const heads = HEAD.flatMap((keypoint) => ends.get(keypoint) ?? []);
  return [...limbs, ...heads.map((head) => turned(neckPath, neck, head))];
}

function middlePoint(points: readonly Vector[]): Vector {
  return { x: mean(points.map(({ x }) => x)), y: mean(points.map(({ y }) => y)) };
}

function middlePath(paths: readonly KeypointPath[]): Pick<KeypointPath, 'x' | 'y'> {
  const middle = (axis: 'x' | 'y') =>
    Float64Array.from(SHARES, (_, step) => mean(paths.map((path) => path[axis][step]!)));
  return { x: middle('x'), y: middle('y') };
}

/** The paths of one side's keypoints, from wrist to ankle; what is not seen at the chain's ends is left out. */
function limbPaths(chain: readonly (KeypointEnds | undefined)[]): readonly KeypointPath[] {
  const first = chain.findIndex((ends) => ends !== undefined);
  const last = chain.findLastIndex((ends) => ends !== undefined);
  const seen = chain.slice(first, last + 1).filter((ends) => ends !== undefined);
  if (first < 0 || seen.length < last + 1 - first || seen.length < 2) return [];
  // The foot stays where both move alike.
  const root = travelOf(seen[0]!) < travelOf(seen.at(-1)!) ? 0 : seen.length - 1;
  const paths: KeypointPath[] = [];
  paths[root] = straight(seen[root]!);
  for (let i = root - 1; i >= 0; i--) paths[i] = turned(paths[i + 1]!, seen[i + 1]!, seen[i]!);
  for (let i = root + 1; i < seen.length; i++) paths[i] = turned(paths[i - 1]!, seen[i - 1]!, seen[i]!);
  return paths;
}

function straight(ends: KeypointEnds): KeypointPath {
  const at = (from: number, to: number) => Float64Array.from(SHARES, (share) => from + share * (to - from));
  return {
    keypoint: ends.keypoint,
    x: at(ends.low.x, ends.high.x),
    y: at(ends.low.y, ends.high.y),
    way: travelOf(ends),
  };
}

/** The path of a limb's far end, the limb turning evenly about its near end, the shorter way round. */
function turned(
  nearPath: Pick<KeypointPath, 'x' | 'y'>,
  near: Pick<KeypointEnds, 'low' | 'high'>,
  far: KeypointEnds,
): KeypointPath {
  const from = { x: far.low.x - near.low.x, y: far.low.y - near.low.y };
  const to = { x: far.high.x - near.high.x, y: far.high.y - near.high.y };
  const direction = Math.atan2(from.y, from.x);
  const turn = Math.atan2(from.x * to.y - from.y * to.x, from.x * to.x + from.y * to.y);
  // Alike, were the view known exactly; a limb is not stretched beyond what either end shows.
  const [lengthBefore, lengthAfter] = [Math.hypot(from.x, from.y), Math.hypot(to.x, to.y)];
  const limb = (share: number) => {
    const length = lengthBefore + Math.min(1, Math.max(0, share)) * (lengthAfter - lengthBefore);
    const towards = direction + share * turn;
    return { x: length * Math.cos(towards), y: length * Math.sin(towards) };
  };
  return {
    keypoint: far.keypoint,
    x: nearPath.x.map((x, step) => x + limb(SHARES[step]!).x),
    y: nearPath.y.map((y, step) => y + limb(SHARES[step]!).y),
    way: travelOf(far),
  };
}

function travelOf({ low, high }: KeypointEnds): number {
  return Math.hypot(high.x - low.x, high.y - low.y);
}

/** The share of the way at which a frame's keypoints lie nearest to their paths (Cauchy's loss); null where too few are seen. */
function nearestShare(
  body: Body,
  frame: number,
  paths: readonly KeypointPath[],
  sidewaysStretch: number,
): number | null {
  const scale = (BESIDE_TORSOS * body.torsoPixels) ** 2;
  const costs = new Float64Array(SHARES.length);
  let seen = 0;
  for (const { keypoint, x, y } of paths) {
    const at = frame * KEYPOINT_COUNT + keypoint;
    if (body.seen[at] !== 1) continue;
    seen += 1;
    for (let step = 0; step < costs.length; step++) {
      const dx = body.x[at]! - x[step]! / sidewaysStretch;
      const dy = body.y[at]! - y[step]!;
      costs[step]! += Math.log1p((dx * dx + dy * dy) / scale);
    }
  }
  if (seen < FEWEST_KEYPOINTS) return null;
  const best = costs.indexOf(Math.min(...costs));
  return SHARES[best]! + SHARE_STEP * betweenSteps(costs, best);
}

/** Where a parabola through three neighbouring costs is lowest, in steps from the middle one. */
function betweenSteps(costs: Float64Array, best: number): number {
  const [before, here, after] = [costs[best - 1], costs[best]!, costs[best + 1]];
  if (before === undefined || after === undefined) return 0;
  const curvature = before - 2 * here + after;
  return curvature > 0 ? (before - after) / 2 / curvature : 0;
}

function sumOfSquares(values: readonly number[]): number {
  return values.reduce((sum, value) => sum + value * value, 0);
}
