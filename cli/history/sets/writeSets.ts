import type { Database, Value } from '../file/database.js';
import { amended } from './amended.js';
import { type BoutFigures, boutFigures } from './figures.js';
import type { Amendment, SavedTrack, SetDetails, SetToSave } from './savedSet.js';

/** Who the set is and when it changed; a copy brought in from elsewhere keeps its own. */
export interface Identity {
  readonly uid: string;
  readonly savedAt: string;
  readonly changedAt: string;
  /** The number it had, taken again where it is free. */
  readonly id: number | null;
}

/** Puts a set into an open transaction and gives its number. */
export function insertSet(database: Database, set: SetToSave, identity: Identity): number {
  const { details } = set;
  const shown = amended(set.report, set.amendments);
  const { lastId: id } = database.run(
    `INSERT INTO sets (id, uid, film_key, film_file, from_seconds, to_seconds, exercise_id,
       exercise_name, plan, headline, recorded_at, recorded_at_source, saved_at, changed_at, lifter, load_value,
       load_unit, stage_loads, warm_up, note, invented)
     VALUES (?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?)`,
    [
      identity.id,
      identity.uid,
      set.filmKey,
      set.report.film.file,
      set.fromSeconds,
      set.toSeconds,
      set.report.exercise.id,
      set.report.exercise.name,
      set.report.plan === null ? null : JSON.stringify(set.report.plan),
      shown.headline,
      set.recordedAt.instant,
      set.recordedAt.source,
      identity.savedAt,
      identity.changedAt,
      ...detailValues(details),
      set.invented ? 1 : 0,
    ],
  );
  database.run('INSERT INTO reports (set_id, report) VALUES (?, ?)', [id, JSON.stringify(set.report)]);
  for (const amendment of set.amendments) insertAmendment(database, id, amendment);
  for (const figures of boutFigures(shown)) insertBout(database, id, figures);
  if (set.track !== null) insertTrack(database, id, set.track);
  return id;
}

/** In the order of the columns lifter, load_value, load_unit, stage_loads, warm_up, note. */
export function detailValues(details: SetDetails): readonly Value[] {
  return [
    details.lifter,
    details.load?.value ?? null,
    details.load?.unit ?? null,
    details.stageLoads === null ? null : JSON.stringify(details.stageLoads),
    details.warmUp ? 1 : 0,
    details.note,
  ];
}

export function insertBout(database: Database, id: number, figures: BoutFigures): void {
  database.run(
    `INSERT INTO bouts (set_id, number, side, facing, degrees_off_side, complete_reps, partial_reps, failed_reps,
       time_under_tension_seconds, delivered_lowering_share, delivered_lowering_uncertainty,
       median_eccentric_seconds, median_eccentric_uncertainty_seconds, median_range_degrees,
       median_range_uncertainty_degrees, last_controlled_rep, first_shortened_rep)
     VALUES (?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?)`,
    [
      id,
      figures.number,
      figures.side,
      figures.facing,
      figures.degreesOffSide,
      figures.completeReps,
      figures.partialReps,
      figures.failedReps,
      figures.timeUnderTensionSeconds,
      figures.deliveredLoweringShare,
      figures.deliveredLoweringUncertainty,
      figures.medianEccentricSeconds,
      figures.medianEccentricUncertaintySeconds,
      figures.medianRangeDegrees,
      figures.medianRangeUncertaintyDegrees,
      figures.lastControlledRep,
      figures.firstShortenedRep,
    ],
  );
}

export function insertAmendment(database: Database, id: number, amendment: Amendment): void {
  database.run(
    'INSERT OR REPLACE INTO amendments (set_id, side, at_seconds, reason, made_at) VALUES (?, ?, ?, ?, ?)',
    [id, amendment.side, amendment.atSeconds, amendment.reason, amendment.madeAt],
  );
}

function insertTrack(database: Database, id: number, track: SavedTrack): void {
  database.run('INSERT INTO tracks (set_id, request, film, track) VALUES (?, ?, ?, ?)', [
    id,
    JSON.stringify(track.request),
    JSON.stringify(track.film),
    track.bytes,
  ]);
}
