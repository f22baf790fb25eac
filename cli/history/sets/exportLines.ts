import { z } from 'zod';
import { setReportSchema } from '../../../analysis/report/setReport.js';
import type { History } from '../file/history.js';
import { type HistoryEntry, readEntries, type Selection } from './readEntries.js';
import { readAmendments, readTrack } from './readSets.js';
import { amendmentSchema, detailsSchema, recordedAtSchema, trackRequestSchema } from './savedSet.js';

const SAVED_SET_SCHEMA_ID = 'tempofilm.saved-set/1';

/** One line of an export: all there is about one set, in a form that any program reads. */
export const savedSetSchema = z.object({
  schema: z.literal(SAVED_SET_SCHEMA_ID),
  set: z.int().positive(),
  uid: z.string().min(1),
  filmKey: z.string().min(1),
  fromSeconds: z.number().nullable(),
  toSeconds: z.number().nullable(),
  recordedAt: recordedAtSchema,
  savedAt: z.string(),
  changedAt: z.string(),
  details: detailsSchema,
  invented: z.boolean(),
  amendments: z.array(amendmentSchema),
  report: z.looseObject({}).refine((value) => setReportSchema.safeParse(value).success, 'is no set report'),
  /** Null where the track was not stored, or was left out. */
  track: z
    .object({ request: trackRequestSchema, film: z.record(z.string(), z.unknown()), bytes: z.base64() })
    .nullable(),
});

export interface ExportOptions {
  readonly selection: Selection;
  /** Without tracks a line is small, but the set can't be scored again where it is read in. */
  readonly tracks: boolean;
}

/** The sets as JSON lines without line ends, in order of recording; the same sets always give the same bytes. */
export function* exportLines(history: History, options: ExportOptions): Generator<string> {
  for (const entry of readEntries(history, options.selection)) yield lineOf(history, entry, options.tracks);
}

function lineOf(history: History, entry: HistoryEntry, tracks: boolean): string {
  const stored = history.read((database) =>
    database.get('SELECT report FROM reports WHERE set_id = ?', [entry.id]),
  );
  const track = tracks ? readTrack(history, entry.id) : null;
  const line = {
    schema: SAVED_SET_SCHEMA_ID,
    set: entry.id,
    uid: entry.uid,
    filmKey: entry.filmKey,
    fromSeconds: entry.fromSeconds,
    toSeconds: entry.toSeconds,
    recordedAt: entry.recordedAt,
    savedAt: entry.savedAt,
    changedAt: entry.changedAt,
    details: entry.details,
    invented: entry.invented,
    amendments: history.read((database) => readAmendments(database, entry.id)),
    report: JSON.parse(String(stored?.['report'])),
    track:
      track === null
        ? null
        : { request: track.request, film: track.film, bytes: Buffer.from(track.bytes).toString('base64') },
  };
  return JSON.stringify(line);
}
