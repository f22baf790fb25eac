import type { BoutReport, RepReport, SetReport } from '../report/setReport.js';

/**
 * A report with times and ranges alone: whatever depends on which way the muscle works is left out, since nobody has
 * said so yet. A last rep that would have failed counts as a part of the range.
 */
export function unjudged(report: SetReport): SetReport {
  return { ...report, bouts: report.bouts.map(unjudgedBout) };
}

function unjudgedBout(bout: BoutReport): BoutReport {
  const { summary } = bout;
  return {
    ...bout,
    reps: bout.reps.map(unjudgedRep),
    summary: {
      ...summary,
      partialReps: summary.partialReps + summary.failedReps,
      failedReps: 0,
      concentricSpeedLoss: null,
    },
  };
}

function unjudgedRep(rep: RepReport): RepReport {
  const { range } = rep;
  return {
    ...rep,
    partial: rep.partial || rep.failed,
    failed: false,
    range: range === null ? null : { ...range, shortenedAt: null },
    phases: rep.phases.map((phase) => ({ ...phase, verdict: null })),
    concentricSpeedDegreesPerSecond: null,
    trunkSwingDegrees: null,
    stickingRegion: null,
  };
}
