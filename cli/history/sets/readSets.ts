import { z } from 'zod';
import type { Exercise } from '../../../analysis/exercises/exercise.js';
import { loadSchema, planSchema, type SetReport } from '../../../analysis/report/setReport.js';
import type { Database, Row, Value } from '../file/database.js';
import type { History } from '../file/history.js';
import type { BoutFigures } from './figures.js';
import {
  type Amendment,
  amendmentSchema,
  parseStoredReport,
  type RecordedAt,
  type SavedTrack,
  type SetDetails,
  trackRequestSchema,
} from './savedSet.js';

/** A set as lists and trends show it: everything but the whole report and the track. */
export interface HistoryEntry {
  readonly id: number;
  readonly uid: string;
  readonly filmKey: string;
  readonly filmFile: string;
  readonly fromSeconds: number | null;
  readonly toSeconds: number | null;
  readonly exercise: { readonly id: string; readonly name: string };
  readonly plan: SetReport['plan'];
  readonly headline: string;
  readonly recordedAt: RecordedAt;
  readonly savedAt: string;
  readonly changedAt: string;
  readonly details: SetDetails;
  readonly invented: boolean;
  /** Reps the lifter dropped. The figures of the bouts are without them. */
  readonly amendments: number;
  readonly bouts: readonly BoutFigures[];
}

/** Which sets to read; null or absent leaves a question open. */
export interface Selection {
  readonly exerciseId?: string | null;
  readonly lifter?: string | null;
  /** Only sets recorded at this instant (ISO 8601, UTC) or later. */
  readonly since?: string | null;
  readonly ids?: readonly number[] | null;
}

/** The sets asked for, in order of recording. */
export function readEntries(history: History, selection: Selection = {}): readonly HistoryEntry[] {
  return history.read((database) => {
    const { where, values } = condition(selection);
    const boutsBySet = new Map<unknown, Row[]>();
    const planOf = plansRead();
    for (const row of database.all(
      `SELECT bouts.* FROM bouts JOIN sets ON sets.id = bouts.set_id ${where} ORDER BY set_id, number`,
      values,
    )) {
      const bouts = boutsBySet.get(row['set_id']);
      if (bouts === undefined) boutsBySet.set(row['set_id'], [row]);
      else bouts.push(row);
    }
    return database
      .all(
        `SELECT sets.*, (SELECT count(*) FROM amendments WHERE set_id = sets.id) AS amendments
         FROM sets ${where} ORDER BY recorded_at, id`,
        values,
      )
      .map((row) => entryOf(row, boutsBySet.get(row['id']) ?? [], planOf));
  });
}

/** The whole report of a set, as measured. */
export function readReport(history: History, id: number): SetReport {
  return history.read((database) => storedReport(database, id));
}

export function storedReport(database: Database, id: number): SetReport {
  return parseStoredReport(
    String(database.get('SELECT report FROM reports WHERE set_id = ?', [id])?.['report']),
  );
}

/** The track of a set, or null where none was stored. */
export function readTrack(history: History, id: number): SavedTrack | null {
  const row = history.read((database) => database.get('SELECT * FROM tracks WHERE set_id = ?', [id]));
  if (row === null) return null;
  return {
    request: trackRequestSchema.parse(JSON.parse(String(row['request']))),
    film: JSON.parse(String(row['film'])),
    bytes: new Uint8Array(row['track'] as ArrayBuffer),
  };
}

/** The exercise a set was scored as, whole: a user's own may be gone from its file by now. Null without a track. */
export function readExercise(history: History, id: number): Exercise | null {
  const row = history.read((database) => database.get('SELECT request FROM tracks WHERE set_id = ?', [id]));
  return row === null ? null : trackRequestSchema.parse(JSON.parse(String(row['request']))).exercise;
}

export function readDetails(database: Database, id: number): SetDetails {
  const row = database.get('SELECT * FROM sets WHERE id = ?', [id]);
  if (row === null) throw new Error(`set ${id} has no row`);
  return detailsOf(row);
}

export function readAmendments(database: Database, id: number): readonly Amendment[] {
  return database
    .all(
      'SELECT side, at_seconds, reason, made_at FROM amendments WHERE set_id = ? ORDER BY at_seconds, side',
      [id],
    )
    .map((row) =>
      amendmentSchema.parse({
        side: row['side'],
        atSeconds: row['at_seconds'],
        reason: row['reason'],
        madeAt: row['made_at'],
      }),
    );
}

function condition(selection: Selection): { readonly where: string; readonly values: readonly Value[] } {
  const parts: string[] = [];
  const values: Value[] = [];
  const ask = (part: string, ...asked: readonly Value[]) => {
    parts.push(part);
    values.push(...asked);
  };
  if (selection.exerciseId) ask('sets.exercise_id = ?', selection.exerciseId);
  if (selection.lifter) ask('sets.lifter = ? COLLATE NOCASE', selection.lifter);
  if (selection.since) ask('sets.recorded_at >= ?', selection.since);
  if (selection.ids) ask('sets.id IN (SELECT value FROM json_each(?))', JSON.stringify(selection.ids));
  return { where: parts.length === 0 ? '' : `WHERE ${parts.join(' AND ')}`, values };
}

const rowSchema = z.object({
  id: z.number(),
  uid: z.string(),
  film_key: z.string(),
  film_file: z.string(),
  from_seconds: z.number().nullable(),
  to_seconds: z.number().nullable(),
  exercise_id: z.string(),
  exercise_name: z.string(),
  plan: z.string().nullable(),
  headline: z.string(),
  recorded_at: z.string(),
  recorded_at_source: z.enum(['film', 'file', 'saved']),
  saved_at: z.string(),
  changed_at: z.string(),
  invented: z.number(),
  amendments: z.number(),
});

/** Reads plans, each text once: over the years the same few stand in thousands of sets. */
function plansRead(): (text: string) => NonNullable<SetReport['plan']> {
  const known = new Map<string, NonNullable<SetReport['plan']>>();
  return (text) => {
    const plan = known.get(text) ?? planSchema.parse(JSON.parse(text));
    known.set(text, plan);
    return plan;
  };
}

function entryOf(row: Row, bouts: readonly Row[], planOf: ReturnType<typeof plansRead>): HistoryEntry {
  const set = rowSchema.parse(row);
  return {
    id: set.id,
    uid: set.uid,
    filmKey: set.film_key,
    filmFile: set.film_file,
    fromSeconds: set.from_seconds,
    toSeconds: set.to_seconds,
    exercise: { id: set.exercise_id, name: set.exercise_name },
    plan: set.plan === null ? null : planOf(set.plan),
    headline: set.headline,
    recordedAt: { instant: set.recorded_at, source: set.recorded_at_source },
    savedAt: set.saved_at,
    changedAt: set.changed_at,
    details: detailsOf(row),
    invented: set.invented === 1,
    amendments: set.amendments,
    bouts: bouts.map(figuresOf),
  };
}

const detailRowSchema = z.object({
  lifter: z.string().nullable(),
  load_value: z.number().nullable(),
  load_unit: loadSchema.shape.unit.nullable(),
  stage_loads: z.string().nullable(),
  warm_up: z.number(),
  note: z.string().nullable(),
});

function detailsOf(row: Row): SetDetails {
  const details = detailRowSchema.parse(row);
  return {
    lifter: details.lifter,
    load: details.load_unit === null ? null : { value: details.load_value, unit: details.load_unit },
    stageLoads:
      details.stage_loads === null ? null : z.array(loadSchema).parse(JSON.parse(details.stage_loads)),
    warmUp: details.warm_up === 1,
    note: details.note,
  };
}

const boutRowSchema = z.object({
  number: z.number(),
  side: z.enum(['left', 'right', 'both']),
  facing: z.enum(['left', 'right', 'front', 'back']),
  degrees_off_side: z.number(),
  complete_reps: z.number(),
  partial_reps: z.number(),
  failed_reps: z.number(),
  time_under_tension_seconds: z.number(),
  delivered_lowering_share: z.number().nullable(),
  delivered_lowering_uncertainty: z.number().nullable(),
  median_eccentric_seconds: z.number().nullable(),
  median_eccentric_uncertainty_seconds: z.number().nullable(),
  median_range_degrees: z.number().nullable(),
  median_range_uncertainty_degrees: z.number().nullable(),
  last_controlled_rep: z.number().nullable(),
  first_shortened_rep: z.number().nullable(),
});

function figuresOf(row: Row): BoutFigures {
  const bout = boutRowSchema.parse(row);
  return {
    number: bout.number,
    side: bout.side,
    facing: bout.facing,
    degreesOffSide: bout.degrees_off_side,
    completeReps: bout.complete_reps,
    partialReps: bout.partial_reps,
    failedReps: bout.failed_reps,
    timeUnderTensionSeconds: bout.time_under_tension_seconds,
    deliveredLoweringShare: bout.delivered_lowering_share,
    deliveredLoweringUncertainty: bout.delivered_lowering_uncertainty,
    medianEccentricSeconds: bout.median_eccentric_seconds,
    medianEccentricUncertaintySeconds: bout.median_eccentric_uncertainty_seconds,
    medianRangeDegrees: bout.median_range_degrees,
    medianRangeUncertaintyDegrees: bout.median_range_uncertainty_degrees,
    lastControlledRep: bout.last_controlled_rep,
    firstShortenedRep: bout.first_shortened_rep,
  };
}
