import { mean, sampleStandardDeviation } from 'simple-statistics';
import { studentReach } from './distributions.js';

/** As the paper rounds it. */
const REACH = 1.96;

export interface Agreement {
  readonly pairs: number;
  /** Mean of first minus second. */
  readonly bias: number;
  readonly biasInterval: readonly [number, number];
  readonly standardDeviation: number;
  /** Where 95 % of the differences are expected. */
  readonly limits: readonly [number, number];
  readonly lowerLimitInterval: readonly [number, number];
  readonly upperLimitInterval: readonly [number, number];
}

/**
 * Agreement of two ways of measuring the same things, in the unit of the values.
 *
 * Source: Bland and Altman 1986: limits at bias ± 1.96 SD of the differences, their standard error
 * `sqrt(3 SD² / n)`, intervals by Student's t.
 *
 * @returns null with fewer than three pairs.
 */
export function blandAltman(first: readonly number[], second: readonly number[]): Agreement | null {
  const differences = first.map((value, index) => value - second[index]!);
  const pairs = differences.length;
  if (pairs < 3) return null;
  const bias = mean(differences);
  const standardDeviation = sampleStandardDeviation(differences);
  const limits = around(bias, REACH * standardDeviation);
  const reach = studentReach(pairs - 1);
  const limitReach = reach * Math.sqrt((3 * standardDeviation ** 2) / pairs);
  return {
    pairs,
    bias,
    biasInterval: around(bias, (reach * standardDeviation) / Math.sqrt(pairs)),
    standardDeviation,
    limits,
    lowerLimitInterval: around(limits[0], limitReach),
    upperLimitInterval: around(limits[1], limitReach),
  };
}

function around(centre: number, reach: number): readonly [number, number] {
  return [centre - reach, centre + reach];
}
