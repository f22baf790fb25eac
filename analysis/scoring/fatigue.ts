import type { PhaseReport, RepReport } from '../report/setReport.js';
import { firstOfTwoInARow } from './firstOfTwoInARow.js';

/** Seconds of lowering as planned and as done, over the reps that count. */
export interface DeliveredLowering {
  readonly deliveredSeconds: number;
  readonly plannedSeconds: number;
}

/** Complete, neither partial nor failed: a rep that counts. */
export function countsAsComplete(rep: Pick<RepReport, 'complete' | 'partial' | 'failed'>): boolean {
  return rep.complete && !rep.partial && !rep.failed;
}

export function eccentricOf(rep: Pick<RepReport, 'phases'>): PhaseReport | undefined {
  return rep.phases.find((phase) => phase.kind === 'eccentric');
}

export function concentricOf(rep: Pick<RepReport, 'phases'>): PhaseReport | undefined {
  return rep.phases.find((phase) => phase.kind === 'concentric');
}

/**
 * The sum of the smaller of actual and planned eccentric seconds beside the sum of the planned ones, over the
 * counted reps of stages with a numeric eccentric; null where no rep has one. Missing reps are no lost seconds.
 */
export function deliveredLowering(reps: readonly RepReport[]): DeliveredLowering | null {
  let deliveredSeconds = 0;
  let plannedSeconds = 0;
  for (const rep of reps.filter(countsAsComplete)) {
    const eccentric = eccentricOf(rep);
    if (typeof eccentric?.plannedSeconds !== 'number') continue;
    deliveredSeconds += Math.min(eccentric.seconds, eccentric.plannedSeconds);
    plannedSeconds += eccentric.plannedSeconds;
  }
  return plannedSeconds === 0 ? null : { deliveredSeconds, plannedSeconds };
}

/**
 * The number of the last rep before two in a row (or the final rep) whose eccentric is short; the final rep where
 * control was never lost; null where it was lost from the first rep, or no eccentric seconds are planned.
 */
export function lastControlledRep(reps: readonly RepReport[]): number | null {
  const judged = reps.filter((rep) => rep.complete && typeof eccentricOf(rep)?.plannedSeconds === 'number');
  const lost = firstOfTwoInARow(judged.map((rep) => eccentricOf(rep)!.verdict === 'short'));
  return (lost === null ? judged.at(-1) : judged[lost - 1])?.number ?? null;
}

/**
 * The share of the quickest concentric speed lost by the last counted rep, over the reps whose lift was explosive
 * or left free: elsewhere it would measure obedience. Null with fewer than two such reps, or no degrees.
 */
export function concentricSpeedLoss(reps: readonly RepReport[]): number | null {
  const free = reps.filter((rep) => {
    const planned = concentricOf(rep)?.plannedSeconds ?? null;
    return countsAsComplete(rep) && (planned === null || planned === 'X');
  });
  return speedLoss(free.map((rep) => rep.concentricSpeedDegreesPerSecond).filter((speed) => speed !== null));
}

/**
 * (fastest − last) / fastest: the definition of velocity loss in the training literature. Any unit, positive, in
 * order; null with fewer than two.
 */
export function speedLoss(speeds: readonly number[]): number | null {
  if (speeds.length < 2) return null;
  const fastest = Math.max(...speeds);
  return fastest > 0 ? (fastest - speeds.at(-1)!) / fastest : null;
}

/** Whether a bout's last lift was slower than its quickest by more than the ± of their seconds. */
export function slowedBeyondDoubt(reps: readonly RepReport[]): boolean {
  const lifts = reps.filter(countsAsComplete).flatMap((rep) => {
    const seconds = concentricOf(rep);
    const speed = rep.concentricSpeedDegreesPerSecond;
    if (seconds === undefined || speed === null || seconds.seconds === 0) return [];
    return [{ speed, share: seconds.uncertaintySeconds / seconds.seconds }];
  });
  const last = lifts.at(-1);
  if (last === undefined) return false;
  const quickest = lifts.reduce((best, lift) => (lift.speed > best.speed ? lift : best));
  return (quickest.speed - last.speed) / quickest.speed > Math.hypot(quickest.share, last.share);
}
