import type { Load } from '../../../analysis/plan/load.js';
import type { SetReport } from '../../../analysis/report/setReport.js';
import type { Database, Value } from '../file/database.js';
import type { History } from '../file/history.js';
import type { BoutFigures } from './figures.js';
import type { RecordedAt, SetDetails } from './savedSet.js';

/** What is followed of a set over the weeks. */
export interface FollowedSet {
  readonly id: number;
  readonly exercise: { readonly id: string; readonly name: string };
  readonly plan: SetReport['plan'];
  readonly recordedAt: RecordedAt;
  readonly details: SetDetails;
  readonly invented: boolean;
  /** Reps the lifter dropped. The figures of the bouts are without them. */
  readonly amendments: number;
  readonly bouts: readonly BoutFigures[];
}

/** A set as lists show it: everything but the whole report and the track. */
export interface HistoryEntry extends FollowedSet {
  readonly uid: string;
  readonly filmKey: string;
  readonly filmFile: string;
  readonly fromSeconds: number | null;
  readonly toSeconds: number | null;
  readonly headline: string;
  readonly savedAt: string;
  readonly changedAt: string;
}

/** Which sets to read; null or absent leaves a question open. */
export interface Selection {
  readonly exerciseId?: string | null;
  readonly lifter?: string | null;
  /** Only sets recorded at this instant (ISO 8601, UTC) or later. */
  readonly since?: string | null;
  readonly ids?: readonly number[] | null;
}

/**
 * The sets asked for, in order of recording. The tables hold the types and values that were checked when they were
 * put in, so rows are taken as they are: checking thousands again takes longer than reading them.
 */
export function readEntries(history: History, selection: Selection = {}): readonly HistoryEntry[] {
  return readSets<EntryRow, HistoryEntry>(history, selection, ENTRY_COLUMNS, entryOf);
}

/** The same with no more than is followed over the weeks, which takes half the time. */
export function readFollowedSets(history: History, selection: Selection = {}): readonly FollowedSet[] {
  return readSets<FollowedRow, FollowedSet>(history, selection, FOLLOWED_COLUMNS, followedOf);
}

function readSets<Row extends FollowedRow | EntryRow, Read>(
  history: History,
  selection: Selection,
  columns: string,
  read: (row: Row, beside: Beside) => Read,
): readonly Read[] {
  return history.read((database) => {
    const { where, values } = condition(selection);
    const beside: Beside = {
      bouts: boutsOf(database, where, values),
      amendments: new Map(
        database.table<[number, number]>('SELECT set_id, count(*) FROM amendments GROUP BY set_id'),
      ),
      planOf: plansRead(),
    };
    return database
      .table<Row>(`SELECT ${columns} FROM sets ${where} ORDER BY recorded_at, id`, values)
      .map((row) => read(row, beside));
  });
}

/** What stands in other tables, by the number of its set; and the plans, each read once. */
interface Beside {
  readonly bouts: ReadonlyMap<number, readonly BoutFigures[]>;
  readonly amendments: ReadonlyMap<number, number>;
  readonly planOf: (text: string) => NonNullable<SetReport['plan']>;
}

/** What the lifter said about a set. */
export function readDetails(database: Database, id: number): SetDetails {
  const row = database.table<DetailRow>(`SELECT ${DETAIL_COLUMNS} FROM sets WHERE id = ?`, [id])[0];
  if (row === undefined) throw new Error(`set ${id} has no row`);
  return detailsOf(row);
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

const DETAIL_COLUMNS = 'lifter, load_value, load_unit, stage_loads, warm_up, note';
type DetailRow = readonly [
  lifter: string | null,
  loadValue: number | null,
  loadUnit: Load['unit'] | null,
  stageLoads: string | null,
  warmUp: 0 | 1,
  note: string | null,
];

function detailsOf([lifter, loadValue, loadUnit, stageLoads, warmUp, note]: DetailRow): SetDetails {
  return {
    lifter,
    load: loadUnit === null ? null : { value: loadValue, unit: loadUnit },
    stageLoads: stageLoads === null ? null : JSON.parse(stageLoads),
    warmUp: warmUp === 1,
    note,
  };
}

const FOLLOWED_COLUMNS = `id, exercise_id, exercise_name, plan, recorded_at, recorded_at_source, invented,
  ${DETAIL_COLUMNS}`;
type FollowedRow = readonly [
  id: number,
  exerciseId: string,
  exerciseName: string,
  plan: string | null,
  recordedAt: string,
  recordedAtSource: RecordedAt['source'],
  invented: 0 | 1,
  ...details: DetailRow,
];

function followedOf(row: FollowedRow, { bouts, amendments, planOf }: Beside): FollowedSet {
  const [id, exerciseId, exerciseName, plan, instant, source, invented, ...details] = row;
  return {
    id,
    exercise: { id: exerciseId, name: exerciseName },
    plan: plan === null ? null : planOf(plan),
    recordedAt: { instant, source },
    details: detailsOf(details),
    invented: invented === 1,
    amendments: amendments.get(id) ?? 0,
    bouts: bouts.get(id) ?? [],
  };
}

const ENTRY_COLUMNS = `uid, film_key, film_file, from_seconds, to_seconds, headline, saved_at, changed_at,
  ${FOLLOWED_COLUMNS}`;
type EntryRow = readonly [
  uid: string,
  filmKey: string,
  filmFile: string,
  fromSeconds: number | null,
  toSeconds: number | null,
  headline: string,
  savedAt: string,
  changedAt: string,
  ...followed: FollowedRow,
];

function entryOf(row: EntryRow, beside: Beside): HistoryEntry {
  const [uid, filmKey, filmFile, fromSeconds, toSeconds, headline, savedAt, changedAt, ...followed] = row;
  return {
    ...followedOf(followed, beside),
    ...{ uid, filmKey, filmFile, fromSeconds, toSeconds, headline, savedAt, changedAt },
  };
}

/** Reads plans, each text once: over the years the same few stand in thousands of sets. */
function plansRead(): (text: string) => NonNullable<SetReport['plan']> {
  const known = new Map<string, NonNullable<SetReport['plan']>>();
  return (text) => {
    const plan: NonNullable<SetReport['plan']> = known.get(text) ?? JSON.parse(text);
    known.set(text, plan);
    return plan;
  };
}

const BOUT_COLUMNS = `set_id, number, side, facing, degrees_off_side, complete_reps, partial_reps, failed_reps,
  time_under_tension_seconds, delivered_lowering_share, delivered_lowering_uncertainty, median_eccentric_seconds,
  median_eccentric_uncertainty_seconds, median_range_degrees, median_range_uncertainty_degrees, last_controlled_rep,
  first_shortened_rep`;
type BoutRow = readonly [
  setId: number,
  number: number,
  side: BoutFigures['side'],
  facing: BoutFigures['facing'],
  degreesOffSide: number,
  completeReps: number,
  partialReps: number,
  failedReps: number,
  timeUnderTensionSeconds: number,
  deliveredLoweringShare: number | null,
  deliveredLoweringUncertainty: number | null,
  medianEccentricSeconds: number | null,
  medianEccentricUncertaintySeconds: number | null,
  medianRangeDegrees: number | null,
  medianRangeUncertaintyDegrees: number | null,
  lastControlledRep: number | null,
  firstShortenedRep: number | null,
];

/** The bouts of the sets asked for, in their order, by the number of their set. */
function boutsOf(
  database: Database,
  where: string,
  values: readonly Value[],
): ReadonlyMap<number, readonly BoutFigures[]> {
  const bySet = new Map<number, BoutFigures[]>();
  const joined = where === '' ? '' : `JOIN sets ON sets.id = bouts.set_id ${where}`;
  for (const row of database.table<BoutRow>(
    `SELECT ${BOUT_COLUMNS} FROM bouts ${joined} ORDER BY set_id, bouts.number`,
    values,
  )) {
    const bouts = bySet.get(row[0]);
    if (bouts === undefined) bySet.set(row[0], [figuresOf(row)]);
    else bouts.push(figuresOf(row));
  }
  return bySet;
}

function figuresOf(row: BoutRow): BoutFigures {
  return {
    number: row[1],
    side: row[2],
    facing: row[3],
    degreesOffSide: row[4],
    completeReps: row[5],
    partialReps: row[6],
    failedReps: row[7],
    timeUnderTensionSeconds: row[8],
    deliveredLoweringShare: row[9],
    deliveredLoweringUncertainty: row[10],
    medianEccentricSeconds: row[11],
    medianEccentricUncertaintySeconds: row[12],
    medianRangeDegrees: row[13],
    medianRangeUncertaintyDegrees: row[14],
    lastControlledRep: row[15],
    firstShortenedRep: row[16],
  };
}
