import { twoSidedNormalProbability } from './distributions.js';

/** Series without ties up to this length get the exact probability; longer ones the normal one. */
const LONGEST_EXACT = 10;

export interface MannKendall {
  /** Pairs that rise minus pairs that fall. */
  readonly score: number;
  readonly variance: number;
  /** Standard normal deviate with continuity correction. */
  readonly deviate: number;
  /** Two-sided probability of a score at least this far from 0 where there is no trend. */
  readonly probability: number;
  readonly method: 'exact' | 'normal';
}

/**
 * The Mann–Kendall test for a trend in a series in order of time.
 *
 * Source: Mann 1945, Kendall 1975; variance with ties
 * `(n(n-1)(2n+5) - sum t(t-1)(2t+5)) / 18`, continuity correction `(|S|-1)/sqrt(variance)`.
 * Short series without ties use the exact distribution of the score (counts of permutations by inversions).
 *
 * @param values at least two, finite.
 */
export function mannKendall(values: readonly number[]): MannKendall {
  const score = pairScore(values);
  const ties = tieCounts(values);
  const variance = scoreVariance(values.length, ties);
  const deviate =
    variance === 0 ? 0 : (Math.sign(score) * Math.max(0, Math.abs(score) - 1)) / Math.sqrt(variance);
  const exact = ties.length === 0 && values.length <= LONGEST_EXACT;
  return {
    score,
    variance,
    deviate,
    probability: exact ? exactProbability(values.length, score) : twoSidedNormalProbability(deviate),
    method: exact ? 'exact' : 'normal',
  };
}

/** Variance of the score under no trend. `ties` are the sizes of the groups of equal values. */
export function scoreVariance(count: number, ...tieGroups: readonly (readonly number[])[]): number {
  const term = (size: number) => size * (size - 1) * (2 * size + 5);
  const lost = tieGroups.flat().reduce((sum, size) => sum + term(size), 0);
  return (term(count) - lost) / 18;
}

/** Sizes of the groups of equal values, groups of one left out. */
export function tieCounts(values: readonly number[]): readonly number[] {
  const counts = new Map<number, number>();
  for (const value of values) counts.set(value, (counts.get(value) ?? 0) + 1);
  return [...counts.values()].filter((count) => count > 1);
}

function pairScore(values: readonly number[]): number {
  let score = 0;
  for (let later = 1; later < values.length; later++) {
    for (let earlier = 0; earlier < later; earlier++) score += Math.sign(values[later]! - values[earlier]!);
  }
  return score;
}

/** Share of all orders of `count` different values whose score is at least as far from 0. */
function exactProbability(count: number, score: number): number {
  let orders = [1];
  for (let size = 2; size <= count; size++) {
    const next = new Array<number>(orders.length + size - 1).fill(0);
    for (const [inversions, ways] of orders.entries()) {
      for (let added = 0; added < size; added++) next[inversions + added]! += ways;
    }
    orders = next;
  }
  const pairs = (count * (count - 1)) / 2;
  let extreme = 0;
  let all = 0;
  for (const [inversions, ways] of orders.entries()) {
    all += ways;
    if (Math.abs(pairs - 2 * inversions) >= Math.abs(score)) extreme += ways;
  }
  return extreme / all;
}
