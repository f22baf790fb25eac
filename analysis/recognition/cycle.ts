import type { Body } from '../../core/motion/body.js';
import type { JointAngle } from '../../core/motion/jointAngle.js';
import { type JointSamples, jointSamples, meanOfSides } from '../../core/motion/jointSamples.js';
import { median, quantileOf } from '../../core/motion/robust.js';
import { smoothSamples } from '../../core/motion/smoothing.js';
import type { View } from '../../core/motion/view.js';
import type { Side } from '../../core/pose/keypoints.js';
import { alternatingExtremes } from '../segmentation/extremes.js';

/** A joint that goes to and fro, with the instants of its two ends. */
export interface Cycle {
  readonly joint: JointAngle;
  readonly sides: readonly Side[];
  /** Instants at which the joint is straightest, and most bent, seconds. */
  readonly lowSeconds: readonly number[];
  readonly highSeconds: readonly number[];
  readonly lowDegrees: number;
  readonly highDegrees: number;
  /** Where the joint rests before the first and after the last move: 0 straight, 1 bent; null where the film shows neither. */
  readonly restsAt: number | null;
}

/**
 * Joints in the order in which they name a movement: where the elbow bends at all, it tells more than what the
 * shoulder does along with it. The least range that counts as moving, degrees.
 */
const JOINTS: readonly (readonly [JointAngle, number])[] = [
  ['elbow-flexion', 40],
  ['knee-flexion', 40],
  ['hip-flexion', 25],
  ['shoulder-elevation', 30],
];
/** Moves over less than this share of the usual range are not part of the cycle. */
const LEAST_SHARE = 0.5;
/** Ends that must be seen on each side: two reps. */
const FEWEST_ENDS = 2;
/** Ends of one kind lie within this share of the range of each other; wilder movement is no exercise. */
const LARGEST_SPREAD = 0.25;

/** The first joint in that order that goes to and fro at least twice between like ends; null where none does. */
export function findCycle(body: Body, view: View): Cycle | null {
  for (const [joint, leastRange] of JOINTS) {
    const cycles = sideChoices(view)
      .map((sides) => cycleOf(body, joint, sides, view, leastRange))
      .filter((cycle) => cycle !== null);
    const best = cycles.toSorted((a, b) => rangeOf(b) - rangeOf(a))[0];
    if (best !== undefined) return best;
  }
  return null;
}

function rangeOf({ highDegrees, lowDegrees }: Cycle): number {
  return highDegrees - lowDegrees;
}

/** From the side the near limb; from front or back each limb, and both together. */
function sideChoices(view: View): readonly (readonly Side[])[] {
  return view.nearSide !== null ? [[view.nearSide]] : [['left', 'right'], ['left'], ['right']];
}

function cycleOf(
  body: Body,
  joint: JointAngle,
  sides: readonly Side[],
  view: View,
  leastRange: number,
): Cycle | null {
  const samples = drivingSamples(body, joint, sides, view);
  if (samples.seenShare < 0.3) return null;
  const curves = smoothSamples(samples);
  const all = curves.flatMap((curve) => Array.from(curve.samples.values));
  const range = (quantileOf(all, 0.95) ?? 0) - (quantileOf(all, 0.05) ?? 0);
  if (range < leastRange) return null;
  const ends = curves
    .flatMap((curve) => alternatingExtremes(curve.spline, LEAST_SHARE * range))
    .filter((end) => !end.atEdge);
  const low = ends.filter((end) => end.kind === 'low');
  const high = ends.filter((end) => end.kind === 'high');
  if (low.length < FEWEST_ENDS || high.length < FEWEST_ENDS) return null;
  const lowDegrees = median(low.map((end) => end.value))!;
  const highDegrees = median(high.map((end) => end.value))!;
  const size = highDegrees - lowDegrees;
  const unlike = (kind: typeof low, middle: number) =>
    median(kind.map((end) => Math.abs(end.value - middle)))! > LARGEST_SPREAD * size;
  if (size < leastRange || unlike(low, lowDegrees) || unlike(high, highDegrees)) return null;
  const first = Math.min(...ends.map((end) => end.seconds));
  const last = Math.max(...ends.map((end) => end.seconds));
  const resting = all.length === 0 ? [] : outside(samples, first, last);
  return {
    ...{ joint, sides, lowDegrees, highDegrees },
    lowSeconds: low.map((end) => end.seconds),
    highSeconds: high.map((end) => end.seconds),
    restsAt: resting.length === 0 ? null : clamp((median(resting)! - lowDegrees) / size),
  };
}

function drivingSamples(body: Body, joint: JointAngle, sides: readonly Side[], view: View): JointSamples {
  const [first, second] = sides.map((side) => jointSamples(body, joint, side, view));
  return second === undefined ? first! : meanOfSides(first!, second);
}

const REST_SECONDS = 2;

/** Values in the two seconds before the first end and after the last one. */
function outside(samples: JointSamples, first: number, last: number): readonly number[] {
  return Array.from(samples.values).filter((_, index) => {
    const at = samples.seconds[index]!;
    return (at < first && at > first - REST_SECONDS) || (at > last && at < last + REST_SECONDS);
  });
}

function clamp(share: number): number {
  return Math.min(1.3, Math.max(-0.3, share));
}
