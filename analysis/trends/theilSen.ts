import { median } from 'simple-statistics';
import { normalReach } from './distributions.js';
import { scoreVariance, tieCounts } from './mannKendall.js';

export interface TheilSen {
  /** Median of the slopes of all pairs: change of `y` for each unit of `x`. */
  readonly slope: number;
  /** Median of `y` minus slope times median of `x`. */
  readonly intercept: number;
  readonly interval: readonly [number, number];
}

/**
 * The Theil–Sen line: a slope that a few outliers cannot move, with Sen's confidence interval.
 *
 * Source: Theil 1950; Sen 1968 (interval from the Mann–Kendall variance, ties in either variable included).
 *
 * @param x at least two different values. @param y as many values.
 * @param confidence between 0 and 1.
 * @returns null where every `x` is the same, so that there is no slope.
 */
export function theilSen(x: readonly number[], y: readonly number[], confidence = 0.95): TheilSen | null {
  const slopes = pairSlopes(x, y);
  if (slopes.length === 0) return null;
  const slope = median(slopes as number[]);
  return {
    slope,
    intercept: median(y as number[]) - slope * median(x as number[]),
    interval: senInterval(slopes, x, y, confidence),
  };
}

function pairSlopes(x: readonly number[], y: readonly number[]): readonly number[] {
  const slopes: number[] = [];
  for (let later = 1; later < x.length; later++) {
    for (let earlier = 0; earlier < later; earlier++) {
      const run = x[later]! - x[earlier]!;
      if (run !== 0) slopes.push((y[later]! - y[earlier]!) / run);
    }
  }
  return slopes.sort((first, second) => first - second);
}

function senInterval(
  slopes: readonly number[],
  x: readonly number[],
  y: readonly number[],
  confidence: number,
): readonly [number, number] {
  const reach = normalReach(confidence) * Math.sqrt(scoreVariance(y.length, tieCounts(x), tieCounts(y)));
  const lower = Math.round((slopes.length - reach) / 2) - 1;
  const upper = Math.round((slopes.length + reach) / 2);
  return [slopes[Math.max(0, lower)]!, slopes[Math.min(slopes.length - 1, upper)]!];
}
