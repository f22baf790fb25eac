/** One measured value at a time, with its standard error. */
export interface TimedValue {
  readonly seconds: number;
  readonly value: number;
  readonly standardError: number;
}

/** A rate of change a second, with its standard error. */
export interface Slope {
  readonly slope: number;
  readonly standardError: number;
}

/** Weighted least-squares slope; null with fewer than three values or no spread in time. */
export function slopeOf(values: readonly TimedValue[]): Slope | null {
  if (values.length < 3) return null;
  let weight = 0;
  let meanSeconds = 0;
  let meanValue = 0;
  for (const { seconds, value, standardError } of values) {
    const one = 1 / standardError ** 2;
    weight += one;
    meanSeconds += one * seconds;
    meanValue += one * value;
  }
  meanSeconds /= weight;
  meanValue /= weight;
  let spread = 0;
  let shared = 0;
  for (const { seconds, value, standardError } of values) {
    const one = 1 / standardError ** 2;
    spread += one * (seconds - meanSeconds) ** 2;
    shared += one * (seconds - meanSeconds) * (value - meanValue);
  }
  if (spread <= 0) return null;
  return { slope: shared / spread, standardError: 1 / Math.sqrt(spread) };
}
