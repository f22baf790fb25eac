import { type Load, loadInKilograms } from '../../../analysis/plan/load.js';
import { LIKE_VIEW_DEGREES } from '../../../analysis/scoring/earlierRange.js';
import type { BoutFigures } from '../sets/figures.js';
import type { FollowedSet } from '../sets/readEntries.js';

/** Loads closer than this share of the heavier one count as alike: the step between two small plates. */
const LIKE_LOAD_SHARE = 0.05;

/** A trend looks back over so many sets at most: what a lifter did years ago says nothing of these weeks. */
export const MOST_COMPARED = 100;

/** One bout of one set: what is compared over the weeks. */
export interface TrackedBout {
  readonly set: FollowedSet;
  readonly bout: BoutFigures;
}

/** Why a set is not compared with the latest one, counted. */
export interface LeftOut {
  readonly warmUp: number;
  readonly load: number;
  readonly view: number;
  readonly plan: number;
  readonly invented: number;
  /** Like the latest, but further back than the sets that are compared. */
  readonly earlier: number;
}

export interface LikeBouts {
  /** In order of recording; the last is the one the others are like. */
  readonly bouts: readonly TrackedBout[];
  readonly leftOut: LeftOut;
}

/**
 * The bouts that may be compared with the latest one: filmed from about the same view, at about the same load, with
 * the same planned tempo. Warm-ups are never compared.
 *
 * @param bouts of one exercise, lifter and side, in order of recording.
 */
export function likeTheLatest(bouts: readonly TrackedBout[]): LikeBouts {
  const latest = bouts.findLast(({ set }) => !set.details.warmUp);
  const leftOut = { warmUp: 0, load: 0, view: 0, plan: 0, invented: 0, earlier: 0 };
  if (latest === undefined) return { bouts: [], leftOut: { ...leftOut, warmUp: bouts.length } };
  const like = bouts.filter((bout) => {
    const reason = difference(bout, latest);
    if (reason !== null) leftOut[reason] += 1;
    return reason === null;
  });
  const compared = like.slice(-MOST_COMPARED);
  return { bouts: compared, leftOut: { ...leftOut, earlier: like.length - compared.length } };
}

function difference(one: TrackedBout, other: TrackedBout): Exclude<keyof LeftOut, 'earlier'> | null {
  if (one.set.details.warmUp) return 'warmUp';
  if (one.set.invented !== other.set.invented) return 'invented';
  if (planKey(one.set) !== planKey(other.set)) return 'plan';
  if (!likeLoads(one.set, other.set)) return 'load';
  return likeView(one.bout, other.bout) ? null : 'view';
}

export function likeView(one: BoutFigures, other: BoutFigures): boolean {
  return (
    one.facing === other.facing && Math.abs(one.degreesOffSide - other.degreesOffSide) <= LIKE_VIEW_DEGREES
  );
}

/** Stage by stage, where the stages have their own loads. */
function likeLoads({ details: one }: FollowedSet, { details: other }: FollowedSet): boolean {
  const stages = Math.max(1, one.stageLoads?.length ?? 0, other.stageLoads?.length ?? 0);
  return Array.from({ length: stages }, (_, stage) =>
    likeLoad(one.stageLoads?.[stage] ?? one.load, other.stageLoads?.[stage] ?? other.load),
  ).every((like) => like);
}

function likeLoad(one: Load | null, other: Load | null): boolean {
  if (one === null || other === null) return one === other;
  const [kilograms, otherKilograms] = [loadInKilograms(one), loadInKilograms(other)];
  if (kilograms === null || otherKilograms === null)
    return one.unit === other.unit && one.value === other.value;
  return Math.abs(kilograms - otherKilograms) <= LIKE_LOAD_SHARE * Math.max(kilograms, otherKilograms);
}

type Plan = NonNullable<FollowedSet['plan']>;

/** Sets of the same plan share it, so that years of them are told apart at once. */
const knownPlanKeys = new WeakMap<Plan, string>();

/** The planned tempo of every stage; how many reps were planned does not make a lowering longer. */
function planKey({ plan }: FollowedSet): string {
  if (plan === null) return '[]';
  const key =
    knownPlanKeys.get(plan) ??
    JSON.stringify(plan.stages.map((stage) => [stage.tempo, stage.partials === true]));
  knownPlanKeys.set(plan, key);
  return key;
}
