import { mean, sampleVariance } from 'simple-statistics';
import { standardErrorOf, studentReach } from '../trends/distributions.js';

/** Values of one side, each with the half width of its 95 % interval. */
export interface SideValues {
  readonly values: readonly number[];
  readonly uncertainties: readonly number[];
}

export interface MeanDifference {
  readonly first: number;
  readonly second: number;
  /** First minus second. */
  readonly difference: number;
  /** 95 %. */
  readonly interval: readonly [number, number];
  /** Half width of what the shared errors of both sides alone leave open: no smaller difference can be seen. */
  readonly visible: number;
}

/**
 * Difference of two means with a 95 % interval: Welch's t, in which a side's spread is never taken to be smaller
 * than its measurement noise, widened by an error that all values of one side share and averaging does not lessen.
 *
 * @param sharedHalfWidths half widths of the 95 % intervals of each side's shared error, same unit as the values.
 * @returns null unless both sides have values.
 */
export function meanDifference(
  first: SideValues,
  second: SideValues,
  sharedHalfWidths: readonly [number, number],
): MeanDifference | null {
  if (first.values.length === 0 || second.values.length === 0) return null;
  const spreads = [first, second].map((side) =>
    side.values.length > 1 ? sampleVariance([...side.values]) : null,
  );
  const terms = [first, second].map((side, index) => {
    // One rep alone shows no spread of its own, so it borrows the other side's.
    const spread = spreads[index] ?? spreads[1 - index] ?? 0;
    const noise = meanSquare(side.uncertainties.map(standardErrorOf));
    const count = side.values.length;
    return { variance: Math.max(spread, noise) / count, freedom: Math.max(1, count - 1) };
  });
  const sampling = Math.sqrt(terms[0]!.variance + terms[1]!.variance);
  const visible = Math.hypot(...sharedHalfWidths);
  const reach = sampling === 0 ? visible : Math.hypot(studentReach(welchFreedom(terms)) * sampling, visible);
  const [firstMean, secondMean] = [mean([...first.values]), mean([...second.values])];
  const difference = firstMean - secondMean;
  return {
    first: firstMean,
    second: secondMean,
    difference,
    interval: [difference - reach, difference + reach],
    visible,
  };
}

/** Welch–Satterthwaite. */
function welchFreedom(terms: readonly { readonly variance: number; readonly freedom: number }[]): number {
  const variance = terms.reduce((sum, term) => sum + term.variance, 0);
  return variance ** 2 / terms.reduce((sum, term) => sum + term.variance ** 2 / term.freedom, 0);
}

function meanSquare(values: readonly number[]): number {
  return values.length === 0 ? 0 : mean(values.map((value) => value ** 2));
}
