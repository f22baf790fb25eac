import { mean } from 'simple-statistics';
import { KEYPOINT_COUNT, KEYPOINT_INDEX, type Side } from '../pose/keypoints.js';
import type { Vector } from './angles.js';
import type { Body } from './body.js';
import type { Ends, KeypointEnds } from './postureEnds.js';

/** A limb hangs from limb: what moves least, hand or foot, stays, and the others turn about it. */
export const CHAIN = ['wrist', 'elbow', 'shoulder', 'hip', 'knee', 'ankle'] as const;
const HEAD = [KEYPOINT_INDEX.nose, KEYPOINT_INDEX['left-ear'], KEYPOINT_INDEX['right-ear']];
/** A frame in which fewer keypoints are seen has no share. */
const FEWEST_KEYPOINTS = 3;
/** Shares of the way that are tried: beyond both ends too, since reps differ. */
const SHARES: readonly number[] = Array.from({ length: 61 }, (_, step) => -0.25 + step / 40);
const SHARE_STEP = 1 / 40;
/** Keypoints further beside their path than this, in torsos, hardly count: a limb mistaken for another, say. */
const BESIDE_TORSOS = 0.03;

/** Where a keypoint should be at each of `SHARES`, the picture stretched; `way` is its travel from end to end. */
export interface KeypointPath {
  readonly keypoint: number;
  readonly x: Float64Array;
  readonly y: Float64Array;
  readonly way: number;
}

/**
 * The paths of some sides' limbs and of the head: limbs hang from one another, and each turns evenly from its lean at one
 * end to that at the other.
 */
export function pathsBetween(ends: Ends, sides: readonly Side[]): readonly KeypointPath[] {
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

/** The entry of a path nearest to a share of the way. */
export function stepAt(share: number): number {
  return Math.round((share - SHARES[0]!) / SHARE_STEP);
}

/** The share of the way at which a frame's keypoints lie nearest to their paths (Cauchy's loss); null where too few are seen. */
export function nearestShare(
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
