import { z } from 'zod';
import { type SetReport, setReportSchema } from '../../analysis/report/setReport.js';
import type { FilmFacts } from '../../core/media/film.js';

/** A load: kilograms or pounds, the lifter's own body, or the pin of a weight stack (its number). */
export const loadSchema = z.object({
  value: z.number().nonnegative().nullable(),
  unit: z.enum(['kg', 'lb', 'bodyweight', 'pin']),
});

export type Load = z.infer<typeof loadSchema>;

/** What the lifter says about a set; the film cannot tell it. */
export interface SetDetails {
  readonly lifter: string | null;
  readonly load: Load | null;
  /** One load a planned stage, where they differ; null where the load stayed the same. */
  readonly stageLoads: readonly Load[] | null;
  readonly warmUp: boolean;
  readonly note: string | null;
}

export const NO_DETAILS: SetDetails = {
  lifter: null,
  load: null,
  stageLoads: null,
  warmUp: false,
  note: null,
};

/** When the set was filmed, and who says so: the film's own tag, the file's date, or only the moment of saving. */
export interface RecordedAt {
  /** ISO 8601, UTC. */
  readonly instant: string;
  readonly source: 'film' | 'file' | 'saved';
}

/** What it takes to score a set again without its film. */
export interface SavedTrack {
  readonly film: FilmFacts;
  readonly request: TrackRequest;
  /** The pose track in its file form, compressed. */
  readonly bytes: Uint8Array;
}

/** The parts of the question to the film that are not in the report. */
export const trackRequestSchema = z.looseObject({
  side: z.enum(['left', 'right', 'both']).nullable(),
  mirrored: z.boolean(),
  exerciseChosenBy: z.enum(['user', 'recognition']),
  baselineRangeDegrees: z.number().nullable(),
});

export type TrackRequest = z.infer<typeof trackRequestSchema>;

/** A set on its way into the history. */
export interface SetToSave {
  /** Identifies the film by what is in it, whatever its name. */
  readonly filmKey: string;
  /** The part of the film that was looked at, film seconds; null for its start or end. */
  readonly fromSeconds: number | null;
  readonly toSeconds: number | null;
  readonly recordedAt: RecordedAt;
  readonly report: SetReport;
  readonly details: SetDetails;
  readonly track: SavedTrack | null;
}

/** A set in the history, without its track. */
export interface SavedSet extends Omit<SetToSave, 'track'> {
  /** Number on screen and on the command line. */
  readonly id: number;
  /** Identifies the set on every machine it is copied to. */
  readonly uid: string;
  /** ISO 8601, UTC. */
  readonly savedAt: string;
  readonly changedAt: string;
}

/** A report as stored, checked; fields of later versions are kept. */
export function parseStoredReport(text: string): SetReport {
  return setReportSchema.parse(JSON.parse(text));
}
