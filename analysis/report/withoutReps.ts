import type { Exercise } from '../exercises/exercise.js';
import { summarizeBout } from '../scoring/boutSummary.js';
import { compareSides } from '../scoring/symmetry.js';
import { headline } from './headline.js';
import type { BoutReport, RepReport, SetReport } from './setReport.js';

/** A rep to leave out, by a moment inside it. */
export interface DroppedRep {
  readonly side: RepReport['side'];
  readonly atSeconds: number;
}

/**
 * The report as it reads without the reps the lifter dropped: the others are numbered anew and the figures of the
 * bout are worked out again. What was measured of each rep, and how its range compares with the first reps as
 * measured, stays as it was.
 *
 * @param exercise for the words of the headline; null keeps the measured one.
 */
export function withoutReps(
  report: SetReport,
  dropped: readonly DroppedRep[],
  exercise: Exercise | null,
): SetReport {
  const bouts = report.bouts
    .map((bout) => boutWithout(bout, report, dropped))
    .filter((bout) => bout.reps.length > 0);
  if (bouts.every((bout, index) => bout === report.bouts[index])) return report;
  return {
    ...report,
    bouts,
    symmetry: compareSides(bouts, exercise?.words),
    headline:
      exercise === null || bouts.length === 0 ? report.headline : headline(bouts, exercise, report.plan),
  };
}

function boutWithout(bout: BoutReport, report: SetReport, dropped: readonly DroppedRep[]): BoutReport {
  const kept = bout.reps.filter((rep) => !dropped.some((drop) => isInside(rep, drop)));
  if (kept.length === bout.reps.length) return bout;
  const reps = kept.map((rep, index) => ({ ...rep, number: index + 1 }));
  return {
    ...bout,
    reps,
    startSeconds: reps[0]?.startSeconds ?? bout.startSeconds,
    endSeconds: lastMoveEnd(reps) ?? bout.endSeconds,
    summary: summaryOf(reps, bout.summary, report),
  };
}

function isInside(rep: RepReport, { side, atSeconds }: DroppedRep): boolean {
  return rep.side === side && rep.startSeconds <= atSeconds && atSeconds <= rep.endSeconds;
}

function lastMoveEnd(reps: readonly RepReport[]): number | undefined {
  return reps.at(-1)?.phases.findLast((phase) => !phase.kind.endsWith('hold'))?.endSeconds;
}

function summaryOf(
  reps: readonly RepReport[],
  measured: BoutReport['summary'],
  report: SetReport,
): BoutReport['summary'] {
  return {
    ...summarizeBout(reps, report.plan),
    baselineRangeDegrees: measured.baselineRangeDegrees ?? null,
    baselineEarlierSets: measured.baselineEarlierSets ?? null,
  };
}
