import { medianAbsoluteDeviation, quantile } from 'simple-statistics';

/** Factor from median absolute deviation to standard deviation of a normal distribution, 1/Φ⁻¹(0.75). */
export const NORMAL_CONSISTENCY = 1.482602218505602;

// `quantile` sorts a copy of its own, whatever its types say of the values given.

/** Median of the values; null without any. */
export function median(values: readonly number[]): number | null {
  return values.length === 0 ? null : quantile(values as number[], 0.5);
}

/** Standard deviation estimated from the median absolute deviation, which outliers hardly move; null without values. */
export function robustStandardDeviation(values: readonly number[]): number | null {
  return values.length === 0 ? null : NORMAL_CONSISTENCY * medianAbsoluteDeviation([...values]);
}

/** Value below which the given share (0 to 1) of the values lies; null without any. */
export function quantileOf(values: readonly number[], share: number): number | null {
  return values.length === 0 ? null : quantile(values as number[], share);
}
