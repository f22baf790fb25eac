import type { Exercise } from '../../../analysis/exercises/exercise.js';
import type { SetReport } from '../../../analysis/report/setReport.js';
import type { Database } from '../file/database.js';
import type { History } from '../file/history.js';
import {
  type Amendment,
  amendmentSchema,
  parseStoredReport,
  type SavedTrack,
  trackRequestSchema,
} from './savedSet.js';

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
