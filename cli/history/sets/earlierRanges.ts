import { median } from 'simple-statistics';
import type { Stage } from '../../../analysis/plan/plan.js';
import type { BoutReport, SetReport } from '../../../analysis/report/setReport.js';
import type { EarlierRange } from '../../../analysis/scoring/earlierRange.js';
import { BASELINE_REPS } from '../../../analysis/scoring/range.js';
import type { History } from '../file/history.js';
import { readEntries } from './readEntries.js';
import { readShown } from './readShown.js';

/** Sets that are read in full; enough of them are like any new one. */
const LATEST_READ = 30;

/** Whose earlier sets, of what, before when. */
export interface EarlierQuestion {
  readonly exerciseId: string;
  /** Null: sets without a name, which belong to whoever uses this machine alone. */
  readonly lifter: string | null;
  /** ISO 8601, UTC: only sets recorded before this instant. */
  readonly before: string;
}

/**
 * The baselines of the lifter's earlier sets of an exercise, in order of recording: the first bout of each side that
 * has one from its own reps. Warm-ups and invented sets say nothing of what the lifter reaches.
 */
export function readEarlierRanges(
  history: History,
  { exerciseId, lifter, before }: EarlierQuestion,
): readonly EarlierRange[] {
  const name = lifter?.toLowerCase() ?? null;
  return readEntries(history, { exerciseId })
    .filter(
      (entry) =>
        entry.recordedAt.instant < before &&
        !entry.invented &&
        !entry.details.warmUp &&
        (entry.details.lifter?.toLowerCase() ?? null) === name,
    )
    .slice(-LATEST_READ)
    .flatMap((entry) => baselinesOf(readShown(history, entry.id).report));
}

function baselinesOf(report: SetReport): readonly EarlierRange[] {
  return report.bouts.flatMap((bout, index) => {
    const first = report.bouts.findIndex((other) => other.side === bout.side) === index;
    const baseline = first ? baselineOf(bout, report) : null;
    return baseline === null ? [] : [baseline];
  });
}

function baselineOf(bout: BoutReport, { plan }: SetReport): EarlierRange | null {
  const degrees = bout.summary.baselineRangeDegrees ?? null;
  const ranges = bout.reps.flatMap((rep) => (rep.complete && rep.range !== null ? [rep.range] : []));
  // A baseline that came from earlier sets is theirs, and would be counted twice.
  if (degrees === null || typeof bout.summary.baselineEarlierSets === 'number' || ranges.length === 0)
    return null;
  const stage = bout.reps[0]?.stage ?? null;
  return {
    side: bout.side,
    facing: bout.view.facing,
    degreesOffSide: bout.view.degreesOffSide,
    // An absent `partials` may stand as undefined in a parsed report.
    stage: stage === null ? null : ((plan?.stages[stage - 1] ?? null) as Stage | null),
    degrees,
    uncertaintyDegrees: median(ranges.slice(0, BASELINE_REPS).map((range) => range.uncertaintyDegrees)),
  };
}
