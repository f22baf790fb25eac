import type { SetReport } from '../../../analysis/report/setReport.js';
import type { Database } from '../file/database.js';
import type { History } from '../file/history.js';
import { amended } from './amended.js';
import { boutFigures } from './figures.js';
import { readAmendments, storedReport } from './readSets.js';
import type { Amendment, SetDetails } from './savedSet.js';
import { detailValues, insertAmendment, insertBout } from './writeSets.js';

/** What an edit changes; absent parts stay as they are. */
export interface SetChange {
  readonly details?: SetDetails;
  /** The set scored anew. */
  readonly report?: SetReport;
}

/** Changes a set in one transaction. */
export function changeSet(history: History, id: number, change: SetChange, now: Date = new Date()): void {
  history.write((database) => {
    if (change.details !== undefined) {
      database.run(
        `UPDATE sets SET lifter = ?, load_value = ?, load_unit = ?, stage_loads = ?, warm_up = ?, note = ? WHERE id = ?`,
        [...detailValues(change.details), id],
      );
    }
    if (change.report !== undefined) {
      database.run('UPDATE reports SET report = ? WHERE set_id = ?', [JSON.stringify(change.report), id]);
    }
    refresh(database, id, now);
  });
}

/** Keeps a drop beside the measurement, in one transaction with the figures that change by it. */
export function addAmendment(
  history: History,
  id: number,
  amendment: Amendment,
  now: Date = new Date(),
): void {
  history.write((database) => {
    insertAmendment(database, id, amendment);
    refresh(database, id, now);
  });
}

/** Takes every drop back. @returns how many there were. */
export function clearAmendments(history: History, id: number, now: Date = new Date()): number {
  return history.write((database) => {
    const { changes } = database.run('DELETE FROM amendments WHERE set_id = ?', [id]);
    refresh(database, id, now);
    return changes;
  });
}

/** @returns whether there was such a set. */
export function deleteSet(history: History, id: number): boolean {
  return history.write((database) => database.run('DELETE FROM sets WHERE id = ?', [id]).changes > 0);
}

/** Brings the columns that are drawn from the report up to date with it. */
function refresh(database: Database, id: number, now: Date): void {
  const shown = amended(storedReport(database, id), readAmendments(database, id));
  database.run(
    'UPDATE sets SET exercise_id = ?, exercise_name = ?, plan = ?, headline = ?, changed_at = ? WHERE id = ?',
    [
      shown.exercise.id,
      shown.exercise.name,
      shown.plan === null ? null : JSON.stringify(shown.plan),
      shown.headline,
      now.toISOString(),
      id,
    ],
  );
  database.run('DELETE FROM bouts WHERE set_id = ?', [id]);
  for (const figures of boutFigures(shown)) insertBout(database, id, figures);
}
