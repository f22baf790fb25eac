import { z } from 'zod';
import type { SetRequest } from '../../../analysis/analyzeSet.js';
import type { Exercise } from '../../../analysis/exercises/exercise.js';
import { loadSchema, type SetReport, setReportSchema } from '../../../analysis/report/setReport.js';
import type { FilmFacts } from '../../../core/media/film.js';

/** What the lifter says about a set; the film cannot tell it. */
export const detailsSchema = z.object({
  lifter: z.string().nullable(),
  load: loadSchema.nullable(),
  /** One load a planned stage, where they differ; null where the load stayed the same. */
  stageLoads: z.array(loadSchema).nullable(),
  warmUp: z.boolean(),
  note: z.string().nullable(),
});

export type SetDetails = Readonly<z.infer<typeof detailsSchema>>;

export const NO_DETAILS: SetDetails = {
  lifter: null,
  load: null,
  stageLoads: null,
  warmUp: false,
  note: null,
};

/** When the set was filmed, and who says so: the film's own tag, the file's date, or only the moment of saving. */
export const recordedAtSchema = z.object({
  /** ISO 8601, UTC. */
  instant: z.string(),
  source: z.enum(['film', 'file', 'saved']),
});

export type RecordedAt = Readonly<z.infer<typeof recordedAtSchema>>;

/** What it takes to score a set again without its film. */
export interface SavedTrack {
  readonly film: FilmFacts;
  readonly request: TrackRequest;
  /** The pose track in its file form, compressed. */
  readonly bytes: Uint8Array;
}

/** The parts of the question to the film that the report does not hold. */
export const trackRequestSchema = z.looseObject({
  /** The whole exercise, since a user's own may be gone from its file by then. */
  exercise: z.custom<Exercise>(
    (value) => z.looseObject({ id: z.string(), name: z.string() }).safeParse(value).success,
  ),
  side: z.enum(['left', 'right', 'both']).nullable(),
  mirrored: z.boolean(),
  exerciseChosenBy: z.enum(['user', 'recognition']),
});

export type TrackRequest = Omit<
  SetRequest,
  'plan' | 'load' | 'stageLoads' | 'earlierRanges' | 'programVersion'
>;

/** A rep the lifter dropped: kept beside the measurement, never taken out of it. */
export const amendmentSchema = z.object({
  side: z.enum(['left', 'right', 'both']),
  /** A moment inside the rep, so that it is found again when the set is scored anew. */
  atSeconds: z.number(),
  reason: z.string().nullable(),
  /** ISO 8601, UTC. */
  madeAt: z.string(),
});

export type Amendment = z.infer<typeof amendmentSchema>;

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
  readonly amendments: readonly Amendment[];
  /** True for sets made up for a demonstration, which every view says. */
  readonly invented: boolean;
  readonly track: SavedTrack | null;
}

/** A report as stored, checked; fields of later versions are kept. */
export function parseStoredReport(text: string): SetReport {
  return setReportSchema.parse(JSON.parse(text));
}
