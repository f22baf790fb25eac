import type { SetAnalysis, SetRequest } from '../../analysis/analyzeSet.js';
import type { UnnamedRequest } from '../../analysis/recognition/analyzeUnnamed.js';
import type { FilmFacts } from '../../core/media/film.js';
import type { PoseTrack } from '../../core/pose/track.js';
import type { FilmOptions } from '../options/filmOptions.js';
import { analyzeWithHistory, type EarlierOptions } from './analyzeWithHistory.js';
import type { FindFfmpeg } from './ffmpegWhenNeeded.js';
import { openFilm } from './openFilm.js';
import { poseTrackOf } from './poseTrackOf.js';
import type { FilmProgress } from './progress.js';

/** A film, where its lifter's joints are, and what that says about the set. */
export interface AnalyzedFilm {
  readonly film: FilmFacts;
  readonly track: PoseTrack;
  readonly analysis: SetAnalysis;
  /** The question, with the exercise that was recognised where nobody named one. */
  readonly request: SetRequest;
}

/** A film that can be scored. */
export type MeasuredFilm = Pick<AnalyzedFilm, 'film' | 'track'>;

/** The whole path for one film: facts, pose track (kept or measured), set report beside the lifter's earlier sets. */
export async function analyzeFilm(
  file: string,
  findFfmpeg: FindFfmpeg,
  request: SetRequest | UnnamedRequest,
  options: FilmOptions & EarlierOptions,
  progress: FilmProgress,
): Promise<AnalyzedFilm> {
  return scoreFilm(await measureFilm(file, findFfmpeg, options, progress), request, options, progress);
}

/** The first half of the path: facts and pose track. */
export async function measureFilm(
  file: string,
  findFfmpeg: FindFfmpeg,
  options: FilmOptions,
  progress: FilmProgress,
): Promise<MeasuredFilm> {
  const film = await openFilm(file, findFfmpeg, options);
  return { film, track: await poseTrackOf(film, findFfmpeg, options, progress) };
}

/** The second half: what the track says about the set. */
export async function scoreFilm(
  { film, track }: MeasuredFilm,
  request: SetRequest | UnnamedRequest,
  options: EarlierOptions,
  progress: FilmProgress,
): Promise<AnalyzedFilm> {
  if (request.exercise === null) {
    const { analyzeUnnamed } = await import('../../analysis/recognition/analyzeUnnamed.js');
    return { film, track, ...analyzeUnnamed(track, film, request) };
  }
  const analysis = await analyzeWithHistory(track, film, request, options, progress);
  return { film, track, analysis, request };
}
