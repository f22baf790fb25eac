import { randomUUID } from 'node:crypto';
import type { Database } from '../file/database.js';
import type { History } from '../file/history.js';
import { readDetails } from './readEntries.js';
import { readAmendments } from './readSets.js';
import { type RecordedAt, recordedAtSchema, type SetDetails, type SetToSave } from './savedSet.js';
import { insertSet } from './writeSets.js';

export interface SaveOutcome {
  readonly id: number;
  /** Numbers of the sets of the same film and exercise that this one took the place of. */
  readonly replaced: readonly number[];
}

/**
 * Saves a set in one transaction. An earlier set of the same film and exercise gives up its place, its number and
 * whatever the lifter said about it that is not said anew. Parts of one film that do not overlap are different sets.
 */
export function saveSet(history: History, set: SetToSave, now: Date = new Date()): SaveOutcome {
  return history.write((database) => {
    const earlier = sameSets(database, set);
    const kept = earlier[0] ?? null;
    const details = kept === null ? set.details : mergeDetails(set.details, readDetails(database, kept.id));
    const amendments = [...earlier.flatMap((one) => readAmendments(database, one.id)), ...set.amendments];
    for (const { id } of earlier) database.run('DELETE FROM sets WHERE id = ?', [id]);
    const instant = now.toISOString();
    const id = insertSet(
      database,
      {
        ...set,
        details,
        amendments,
        recordedAt: kept === null ? set.recordedAt : surer(set.recordedAt, kept),
      },
      {
        uid: kept?.uid ?? randomUUID(),
        savedAt: instant,
        changedAt: instant,
        id: kept?.id ?? null,
      },
    );
    return { id, replaced: earlier.map((one) => one.id) };
  });
}

/** What the film itself says of when it was recorded; else the earlier date: that of a copy is later. */
function surer(now: RecordedAt, { recordedAt: before }: SameSet): RecordedAt {
  if (now.source === 'film') return now;
  return before.source === 'film' || before.instant < now.instant ? before : now;
}

/** The sentence that tells what saving did. */
export function describeSave(outcome: SaveOutcome): string {
  const { id, replaced } = outcome;
  if (replaced.length === 0) return `Saved as set ${id}.`;
  if (replaced.length === 1)
    return `Saved as set ${id}, in place of the earlier one of the same film and exercise.`;
  return `Saved as set ${id}, in place of sets ${replaced.join(', ')} of the same film and exercise.`;
}

interface SameSet {
  readonly id: number;
  readonly uid: string;
  readonly changedAt: string;
  readonly recordedAt: RecordedAt;
}

/** What tells whether two sets are the same: film, part of it and exercise. */
export type SetIdentity = Pick<SetToSave, 'filmKey' | 'fromSeconds' | 'toSeconds'> & {
  readonly report: { readonly exercise: { readonly id: string } };
};

/** Sets of the same film and exercise whose part of the film overlaps, the earliest saved first. */
export function sameSets(database: Database, set: SetIdentity): readonly SameSet[] {
  const rows = database.all(
    `SELECT id, uid, changed_at, recorded_at, recorded_at_source FROM sets
     WHERE film_key = ? AND exercise_id = ?
       AND coalesce(from_seconds, -1e300) < coalesce(?, 1e300) AND coalesce(to_seconds, 1e300) > coalesce(?, -1e300)
     ORDER BY id`,
    [set.filmKey, set.report.exercise.id, set.toSeconds, set.fromSeconds],
  );
  return rows.map((row) => ({
    id: Number(row['id']),
    uid: String(row['uid']),
    changedAt: String(row['changed_at']),
    recordedAt: recordedAtSchema.parse({ instant: row['recorded_at'], source: row['recorded_at_source'] }),
  }));
}

/** What is said now goes before what was said earlier; a mark once made stays until it is edited away. */
export function mergeDetails(now: SetDetails, earlier: SetDetails): SetDetails {
  return {
    lifter: now.lifter ?? earlier.lifter,
    load: now.load ?? earlier.load,
    stageLoads: now.stageLoads ?? (now.load === null ? earlier.stageLoads : null),
    warmUp: now.warmUp || earlier.warmUp,
    note: now.note ?? earlier.note,
  };
}
