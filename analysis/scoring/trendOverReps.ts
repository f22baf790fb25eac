import { mannKendall } from '../trends/mannKendall.js';
import { theilSen } from '../trends/theilSen.js';

/** A drift over the reps of a bout, in the unit of the values for each rep. */
export interface RepTrend {
  readonly perRep: number;
  readonly interval: [number, number];
  /** Two-sided, by Mann–Kendall. */
  readonly probability: number;
  /** True when the drift is neither chance nor within what the camera can tell. */
  readonly clear: boolean;
}

/** With fewer reps no order of values is rarer than one in twenty. */
const FEWEST_REPS = 5;
const CHANCE = 0.05;

/**
 * The drift of a measure over reps by Theil–Sen, with the Mann–Kendall probability.
 *
 * @param values with the half width of each one's 95 % interval, in order of reps.
 * @returns null with fewer than five reps.
 */
export function trendOverReps(
  values: readonly { readonly rep: number; readonly value: number; readonly uncertainty: number }[],
): RepTrend | null {
  if (values.length < FEWEST_REPS) return null;
  const line = theilSen(
    values.map((one) => one.rep),
    values.map((one) => one.value),
  );
  if (line === null) return null;
  const { probability } = mannKendall(values.map((one) => one.value));
  const change = Math.abs(line.slope) * (values.at(-1)!.rep - values[0]!.rep);
  const visible = Math.max(...values.map((one) => one.uncertainty));
  const excludesZero = line.interval[0] > 0 || line.interval[1] < 0;
  return {
    perRep: line.slope,
    interval: [line.interval[0], line.interval[1]],
    probability,
    clear: probability < CHANCE && excludesZero && change > visible,
  };
}
