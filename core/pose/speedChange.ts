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

/** The slopes just before and just after a time; null where either side has too few values. */
export function slopesAround(
  values: readonly TimedValue[],
  seconds: number,
  spanSeconds: number,
): { readonly before: Slope; readonly after: Slope } | null {
  const tolerance = 1e-6;
  const before = slopeOf(
    values.filter(
      (one) => one.seconds <= seconds + tolerance && one.seconds >= seconds - spanSeconds - tolerance,
    ),
  );
  const after = slopeOf(
    values.filter(
      (one) => one.seconds >= seconds - tolerance && one.seconds <= seconds + spanSeconds + tolerance,
    ),
  );
  return before === null || after === null ? null : { before, after };
}

/**
 * Whether a movement begins, ends, turns or stalls about a time: the speed changes by more than noise, by a good
 * part of the highest speed nearby, and is much lower on one side than on the other (or turns round). Speeding up
 * and slowing down in the middle of a move is none of these.
 *
 * @param usual the highest speed nearby, in units of the values a second.
 */
export function isEdge(
  around: { readonly before: Slope; readonly after: Slope },
  usual: number,
  rules: { readonly certainty: number; readonly leastChange: number },
): boolean {
  const { before, after } = around;
  const change = Math.abs(after.slope - before.slope);
  const error = Math.hypot(before.standardError, after.standardError);
  if (change < Math.max(rules.certainty * error, rules.leastChange, LEAST_SHARE_OF_USUAL * usual))
    return false;
  if (before.slope * after.slope < 0) return true;
  const [slower, faster] = [Math.abs(before.slope), Math.abs(after.slope)].sort((a, b) => a - b);
  return slower! < LARGEST_RATIO * faster!;
}

const LEAST_SHARE_OF_USUAL = 0.45;
const LARGEST_RATIO = 0.4;
