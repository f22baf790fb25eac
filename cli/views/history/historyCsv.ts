import { formatLoad, loadInKilograms } from '../../../analysis/plan/load.js';
import type { BoutFigures } from '../../history/sets/figures.js';
import type { HistoryEntry } from '../../history/sets/readEntries.js';
import { csvLine } from '../tables/csv.js';

/** In order. README.md describes each. */
export const HISTORY_COLUMNS = [
  'set',
  'recorded_at',
  'exercise',
  'side',
  'bout',
  'lifter',
  'load',
  'load_kg',
  'warm_up',
  'invented',
  'amendments',
  'facing',
  'degrees_off_side',
  'complete_reps',
  'partial_reps',
  'failed_reps',
  'delivered_lowering_share',
  'delivered_lowering_uncertainty',
  'median_eccentric_seconds',
  'median_eccentric_uncertainty_seconds',
  'median_range_degrees',
  'median_range_uncertainty_degrees',
  'last_controlled_rep',
  'first_shortened_rep',
  'time_under_tension_seconds',
  'film',
  'note',
];

/** One row a bout, the sets in order of recording. */
export function historyCsv(entries: readonly HistoryEntry[], side: BoutFigures['side'] | null): string {
  const rows = entries.flatMap((entry) =>
    entry.bouts.filter((bout) => side === null || bout.side === side).map((bout) => row(entry, bout)),
  );
  return [csvLine(HISTORY_COLUMNS), ...rows].join('');
}

function row(entry: HistoryEntry, bout: BoutFigures): string {
  const { details } = entry;
  return csvLine([
    entry.id,
    entry.recordedAt.instant,
    entry.exercise.id,
    bout.side,
    bout.number,
    details.lifter,
    details.load === null ? null : formatLoad(details.load),
    details.load === null ? null : loadInKilograms(details.load),
    details.warmUp,
    entry.invented,
    entry.amendments,
    bout.facing,
    bout.degreesOffSide,
    bout.completeReps,
    bout.partialReps,
    bout.failedReps,
    bout.deliveredLoweringShare,
    bout.deliveredLoweringUncertainty,
    bout.medianEccentricSeconds,
    bout.medianEccentricUncertaintySeconds,
    bout.medianRangeDegrees,
    bout.medianRangeUncertaintyDegrees,
    bout.lastControlledRep,
    bout.firstShortenedRep,
    bout.timeUnderTensionSeconds,
    entry.filmFile,
    details.note,
  ]);
}
