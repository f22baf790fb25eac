import { resolve } from 'node:path';
import type { SetRequest } from '../../analysis/analyzeSet.js';
import { encodeTrack } from '../../core/pose/trackFile.js';
import { historyFile } from '../history/file/location.js';
import { filmKey } from '../history/sets/filmKey.js';
import type { TrackRequest } from '../history/sets/savedSet.js';
import type { FilmOptions } from '../options/filmOptions.js';
import type { AnalyzedFilm } from './analyzeFilm.js';
import { recordedAtOf } from './recordedAtOf.js';

/** Options that decide whether and how a set is kept in the history. */
export interface KeepOptions extends Pick<FilmOptions, 'from' | 'to'> {
  readonly save?: boolean | undefined;
  readonly history?: string | undefined;
  readonly lifterName?: string | undefined;
  readonly note?: string | undefined;
  readonly warmUp?: true | undefined;
}

/**
 * Keeps a set in the history, with its pose track so that it can be scored again without its film.
 *
 * @returns the sentence that tells what was done, or null where the set is not to be kept: with `--no-save`, and
 *   where the film could not answer. A set whose exercise nobody confirmed is not kept, and the sentence says so.
 * @throws Failure (history) where the file can't be written.
 */
export async function keepSet(
  { film, track, analysis, request, details }: AnalyzedFilm,
  options: KeepOptions,
): Promise<string | null> {
  const { report } = analysis;
  if (options.save === false || !report.quality.usable) return null;
  if (report.exercise.confirmed === false) {
    return 'Not kept in the history: its exercise is not confirmed. Name it with --exercise to keep the set.';
  }
  const { withHistory } = await import('../history/file/history.js');
  const { describeSave, saveSet } = await import('../history/sets/saveSet.js');
  const key = await filmKey(film.file);
  const recordedAt = await recordedAtOf(film);
  return withHistory(historyFile(options.history), 'writing', (history) =>
    describeSave(
      saveSet(history, {
        filmKey: key,
        fromSeconds: options.from ?? null,
        toSeconds: options.to ?? null,
        recordedAt,
        report,
        details,
        amendments: [],
        invented: false,
        track: {
          // Looked for from any folder later.
          film: { ...film, file: resolve(film.file) },
          request: withoutReported(request),
          bytes: encodeTrack(track),
        },
      }),
    ),
  );
}

/** What the report itself does not hold of the question. */
function withoutReported(request: SetRequest): TrackRequest {
  const {
    plan: _plan,
    load: _load,
    stageLoads: _stageLoads,
    earlierRanges: _earlierRanges,
    programVersion: _version,
    ...rest
  } = request;
  return rest;
}
