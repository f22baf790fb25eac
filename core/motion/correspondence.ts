import { mean, sum } from 'simple-statistics';
import type { AngleCurve } from './anglesInStep.js';
import { rangeWithin, type Stretch } from './postureEnds.js';

/** Values within this share of the range of one asked for say what corresponds to it, the nearer the more. */
const NEAR_SHARE = 0.1;
/** Beyond what was seen the nearest so many values say it. */
const NEAREST = 5;

/**
 * What an angle read in one way amounts to when read in another, from the times that have both: the weighted mean of
 * how much the two differ where the first is about the same.
 *
 * @returns degrees of `one` to degrees of `other`; as they are where no time has both
 */
export function correspondence(
  one: AngleCurve,
  other: AngleCurve,
  stretch: Stretch,
): (degrees: number) => number {
  const range = rangeWithin(one, stretch);
  const otherAt = new Map(Array.from(other.seconds, (at, index) => [at, other.values[index]!]));
  const pairs = Array.from(one.seconds).flatMap((at, index) => {
    const value = otherAt.get(at);
    if (value === undefined || at < stretch.fromSeconds || at > stretch.toSeconds) return [];
    return [{ from: one.values[index]!, more: value - one.values[index]! }];
  });
  if (range === null || pairs.length === 0) return (degrees) => degrees;
  const width = NEAR_SHARE * (range.high - range.low);
  return (degrees) => {
    const weights = pairs.map(({ from }) => Math.max(0, 1 - Math.abs(from - degrees) / width));
    const total = sum(weights);
    if (total >= 1) return degrees + sum(pairs.map(({ more }, index) => weights[index]! * more)) / total;
    const nearest = pairs.toSorted((a, b) => Math.abs(a.from - degrees) - Math.abs(b.from - degrees));
    return degrees + mean(nearest.slice(0, NEAREST).map(({ more }) => more));
  };
}
