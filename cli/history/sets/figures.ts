import { median } from 'simple-statistics';
import type { BoutReport, PhaseReport, RepReport, SetReport } from '../../../analysis/report/setReport.js';
import { SHARED_SECONDS } from '../../../analysis/scoring/symmetry.js';

/** The figures of one bout that are followed over the weeks. ± are half widths of 95 % intervals. */
export interface BoutFigures {
  readonly number: number;
  readonly side: BoutReport['side'];
  readonly facing: BoutReport['view']['facing'];
  readonly degreesOffSide: number;
  readonly completeReps: number;
  readonly partialReps: number;
  readonly failedReps: number;
  readonly timeUnderTensionSeconds: number;
  /** 0 to 1; null where the plan prescribes no eccentric seconds. */
  readonly deliveredLoweringShare: number | null;
  readonly deliveredLoweringUncertainty: number | null;
  /** Over the reps of the first stage with eccentric seconds in the plan, as the range is: stages differ in tempo. */
  readonly medianEccentricSeconds: number | null;
  readonly medianEccentricUncertaintySeconds: number | null;
  readonly medianRangeDegrees: number | null;
  readonly medianRangeUncertaintyDegrees: number | null;
  readonly lastControlledRep: number | null;
  readonly firstShortenedRep: number | null;
}

/** Standard error of a median of independent normal values, over that of their mean (√(π/2)). */
const MEDIAN_OVER_MEAN = Math.sqrt(Math.PI / 2);

/** The followed figures of every bout of a report, in the report's order. */
export function boutFigures(report: SetReport): readonly BoutFigures[] {
  return report.bouts.map((bout, index) => figuresOf(bout, index + 1));
}

function figuresOf(bout: BoutReport, number: number): BoutFigures {
  const reps = bout.reps.filter((rep) => rep.complete && !rep.partial && !rep.failed);
  const followed = followedReps(reps);
  const eccentrics = eccentricsOf(followed);
  const ranges = followed.flatMap((rep) => (rep.range === null ? [] : [rep.range]));
  return {
    number,
    side: bout.side,
    facing: bout.view.facing,
    degreesOffSide: bout.view.degreesOffSide,
    completeReps: bout.summary.completeReps,
    partialReps: bout.summary.partialReps,
    failedReps: bout.summary.failedReps,
    timeUnderTensionSeconds: bout.summary.timeUnderTensionSeconds,
    deliveredLoweringShare: bout.summary.deliveredLoweringShare,
    deliveredLoweringUncertainty:
      bout.summary.deliveredLoweringShare === null ? null : deliveredUncertainty(eccentricsOf(reps)),
    medianEccentricSeconds: medianOrNull(eccentrics.map((phase) => phase.seconds)),
    medianEccentricUncertaintySeconds: independentUncertainty(
      eccentrics.map((phase) => phase.uncertaintySeconds),
    ),
    medianRangeDegrees: medianOrNull(ranges.map((range) => range.degrees)),
    // What the camera place adds to a range is the same in every rep, so averaging does not lessen it.
    medianRangeUncertaintyDegrees: medianOrNull(ranges.map((range) => range.uncertaintyDegrees)),
    lastControlledRep: bout.summary.lastControlledRep,
    firstShortenedRep: bout.summary.firstShortenedRep,
  };
}

/** The reps of one stage, since the quick reps of another would blur the slow ones. */
function followedReps(reps: readonly RepReport[]): readonly RepReport[] {
  const timed = reps.find((rep) =>
    eccentricsOf([rep]).some((phase) => typeof phase.plannedSeconds === 'number'),
  );
  const stage = (timed ?? reps[0])?.stage ?? null;
  return reps.filter((rep) => rep.stage === stage);
}

function eccentricsOf(reps: readonly RepReport[]): readonly PhaseReport[] {
  return reps.flatMap((rep) => rep.phases.filter((phase) => phase.kind === 'eccentric'));
}

/** ± of Σ min(actual, planned) / Σ planned: only phases at or under their plan move the sum. */
function deliveredUncertainty(eccentrics: readonly PhaseReport[]): number | null {
  let planned = 0;
  let squares = 0;
  for (const phase of eccentrics) {
    if (typeof phase.plannedSeconds !== 'number') continue;
    planned += phase.plannedSeconds;
    if (phase.seconds < phase.plannedSeconds + phase.uncertaintySeconds)
      squares += phase.uncertaintySeconds ** 2;
  }
  const judged = eccentrics.filter((phase) => typeof phase.plannedSeconds === 'number');
  // Another evening's phone stands elsewhere, as it does to the other side: what reps share does not average out.
  const shared = SHARED_SECONDS * judged.length;
  return planned > 0 ? Math.hypot(Math.sqrt(squares), shared) / planned : null;
}

function independentUncertainty(uncertainties: readonly number[]): number | null {
  if (uncertainties.length === 0) return null;
  const squares = uncertainties.reduce((sum, value) => sum + value * value, 0);
  const ofMean = Math.sqrt(squares) / uncertainties.length;
  return Math.hypot(uncertainties.length < 3 ? ofMean : ofMean * MEDIAN_OVER_MEAN, SHARED_SECONDS);
}

function medianOrNull(values: readonly number[]): number | null {
  return values.length === 0 ? null : median([...values]);
}
