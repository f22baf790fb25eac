import { median } from 'simple-statistics';
import type { RepReport } from '../report/setReport.js';
import { mannKendall } from '../trends/mannKendall.js';
import { theilSen } from '../trends/theilSen.js';
import { firstOfTwoInARow } from './range.js';

/** Seconds of lowering as planned and as done, over the reps that count. */
export interface DeliveredLowering {
  readonly deliveredSeconds: number;
  readonly plannedSeconds: number;
}

/** Reps that are complete and neither partial nor failed. */
export function countsAsComplete(rep: RepReport): boolean {
  return rep.complete && !rep.partial && !rep.failed;
}

export function eccentricOf(rep: RepReport): RepReport['phases'][number] | undefined {
  return rep.phases.find((phase) => phase.kind === 'eccentric');
}

export function concentricOf(rep: RepReport): RepReport['phases'][number] | undefined {
  return rep.phases.find((phase) => phase.kind === 'concentric');
}

/**
 * Σ min(actual, planned) beside Σ planned eccentric seconds, over the complete reps of stages with a numeric
 * eccentric; null where no rep has one. Missing reps are not lost seconds.
 */
export function deliveredLowering(reps: readonly RepReport[]): DeliveredLowering | null {
  let deliveredSeconds = 0;
  let plannedSeconds = 0;
  for (const rep of reps) {
    const eccentric = eccentricOf(rep);
    if (!countsAsComplete(rep) || typeof eccentric?.plannedSeconds !== 'number') continue;
    deliveredSeconds += Math.min(eccentric.seconds, eccentric.plannedSeconds);
    plannedSeconds += eccentric.plannedSeconds;
  }
  return plannedSeconds === 0 ? null : { deliveredSeconds, plannedSeconds };
}

/**
 * The last rep before two in a row (or the final one) whose lowering is short of the plan; null where none is, or
 * where already the first rep was short. Stages without a numeric eccentric do not take part.
 */
export function lastControlledRep(reps: readonly RepReport[]): number | null {
  const judged = reps.filter((rep) => rep.complete && typeof eccentricOf(rep)?.plannedSeconds === 'number');
  const slow = firstStageOf(judged);
  const short = slow.map((rep) => eccentricOf(rep)!.verdict === 'short');
  const first = firstOfTwoInARow(
    slow.map((rep) => rep.number),
    short,
  );
  if (first === null) return null;
  const index = slow.findIndex((rep) => rep.number === first);
  return index === 0 ? null : slow[index - 1]!.number;
}

/** Only the slowest-lowering stage is about control; quick finishing reps after it are meant to be quick. */
function firstStageOf(reps: readonly RepReport[]): readonly RepReport[] {
  const stage = reps[0]?.stage ?? null;
  return reps.filter((rep) => rep.stage === stage);
}

/**
 * Share of the quickest concentric speed lost by the last complete rep: (quickest − last) / quickest. Only where
 * every concentric is explosive or unprescribed; else it would measure obedience, and null is returned.
 */
export function concentricSpeedLoss(reps: readonly RepReport[]): number | null {
  const counted = reps.filter(countsAsComplete);
  const free = counted.every((rep) => {
    const planned = concentricOf(rep)?.plannedSeconds ?? null;
    return planned === null || planned === 'X';
  });
  const speeds = counted.map((rep) => rep.concentricSpeedDegreesPerSecond).filter((speed) => speed !== null);
  if (!free || speeds.length < 2 || speeds.length < counted.length) return null;
  const quickest = Math.max(...speeds);
  return quickest <= 0 ? null : Math.max(0, (quickest - speeds[speeds.length - 1]!) / quickest);
}

/** A trend over the reps of a bout; `clear` where chance would hardly make it and it exceeds the measurement's ±. */
export interface RepTrend {
  readonly perRep: number;
  readonly interval: [number, number];
  readonly probability: number;
  readonly clear: boolean;
}

const FEWEST_REPS = 5;

/** @param uncertainty typical half width of the 95 % interval of one value, same unit */
export function trendOverReps(values: readonly number[], uncertainty: readonly number[]): RepTrend | null {
  if (values.length < FEWEST_REPS) return null;
  const line = theilSen(
    values.map((_, i) => i),
    values,
  );
  if (line === null) return null;
  const { probability } = mannKendall(values);
  const change = Math.abs(line.slope) * (values.length - 1);
  return {
    perRep: line.slope,
    interval: [line.interval[0], line.interval[1]],
    probability,
    clear: probability < 0.05 && change > median([...uncertainty]),
  };
}
