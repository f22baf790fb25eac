import { median } from 'simple-statistics';
import type { Plan } from '../plan/plan.js';
import type { BoutReport, BoutSummary, RepReport } from '../report/setReport.js';
import {
  concentricOf,
  concentricSpeedLoss,
  countsAsComplete,
  deliveredLowering,
  eccentricOf,
  lastControlledRep,
} from './fatigue.js';
import { firstShortenedRep } from './range.js';
import { trendOverReps } from './trendOverReps.js';

/** What the reps of a bout amount to. */
export function summarizeBout(reps: readonly RepReport[], plan: Plan | null): BoutSummary {
  const counted = reps.filter(countsAsComplete);
  const delivered = deliveredLowering(reps);
  // Drift is a matter of one tempo, so the trends stay inside the first stage.
  const steady = counted.filter((rep) => rep.stage === (reps[0]?.stage ?? null));
  return {
    completeReps: counted.length,
    partialReps: reps.filter((rep) => rep.partial).length,
    failedReps: reps.filter((rep) => rep.failed).length,
    timeUnderTensionSeconds: reps.flatMap((rep) => rep.phases).reduce((sum, phase) => sum + phase.seconds, 0),
    deliveredLoweringShare:
      delivered === null ? null : Math.min(1, delivered.deliveredSeconds / delivered.plannedSeconds),
    deliveredLoweringSeconds: delivered?.deliveredSeconds ?? null,
    plannedLoweringSeconds: delivered?.plannedSeconds ?? null,
    lastControlledRep: lastControlledRep(reps),
    firstShortenedRep: firstShortenedRep(reps, plan),
    concentricSpeedLoss: concentricSpeedLoss(reps),
    eccentricTrend: trendOverReps(
      steady.flatMap((rep) => {
        const phase = eccentricOf(rep);
        return phase === undefined
          ? []
          : [{ rep: rep.number, value: phase.seconds, uncertainty: phase.uncertaintySeconds }];
      }),
    ),
    rangeTrend: trendOverReps(
      steady.flatMap(({ number, range }) =>
        range === null ? [] : [{ rep: number, value: range.degrees, uncertainty: range.uncertaintyDegrees }],
      ),
    ),
  };
}

/** Median seconds of a move over the complete reps of a bout; null where there is none. */
export function medianSeconds(
  bout: Pick<BoutReport, 'reps'>,
  kind: 'eccentric' | 'concentric',
): number | null {
  const pick = kind === 'eccentric' ? eccentricOf : concentricOf;
  const seconds = bout.reps
    .filter(countsAsComplete)
    .map((rep) => pick(rep)?.seconds)
    .filter((value) => value !== undefined);
  return seconds.length === 0 ? null : median(seconds);
}
