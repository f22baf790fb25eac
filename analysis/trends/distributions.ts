import jstat from 'jstat';

const { jStat } = jstat;

/** Two-sided probability of a standard normal deviate at least as far from 0 as `z`. */
export function twoSidedNormalProbability(z: number): number {
  return Math.min(1, 2 * jStat.normal.cdf(-Math.abs(z), 0, 1));
}

/** How many standard errors a two-sided interval of this confidence reaches; 1.96 for 0.95. */
export function normalReach(confidence = 0.95): number {
  return jStat.normal.inv(0.5 + confidence / 2, 0, 1);
}

/**
 * The same for Student's t with the given degrees of freedom, which need not be whole;
 * infinite degrees of freedom give the normal value.
 */
export function studentReach(degreesOfFreedom: number, confidence = 0.95): number {
  return Number.isFinite(degreesOfFreedom)
    ? jStat.studentt.inv(0.5 + confidence / 2, degreesOfFreedom)
    : normalReach(confidence);
}

/** Half width of a 95 % interval to standard error. */
export function standardErrorOf(halfWidth: number): number {
  return halfWidth / normalReach();
}
