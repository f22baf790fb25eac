import type { SetAnalysis, SetRequest } from '../../analysis/analyzeSet.js';
import type { UnnamedRequest } from '../../analysis/recognition/analyzeUnnamed.js';
import type { FilmFacts } from '../../core/media/film.js';
import type { PoseTrack } from '../../core/pose/track.js';
import type { SetDetails } from '../history/sets/savedSet.js';
import type { FilmOptions } from '../options/filmOptions.js';
import { analyzeWithHistory } from './analyzeWithHistory.js';
import type { FindFfmpeg } from './ffmpegWhenNeeded.js';
import { openFilm } from './openFilm.js';
import { poseTrackOf } from './poseTrackOf.js';
import type { FilmProgress } from './progress.js';
import { type SaidOfSet, type SaidOptions, withSaidBefore } from './withSaidBefore.js';

/** A film, where its lifter's joints are, and what that says about the set. */
export interface AnalyzedFilm {
  readonly film: FilmFacts;
  readonly track: PoseTrack;
  readonly analysis: SetAnalysis;
  /** The question, with the exercise that was recognised where nobody named one, and what a saved set told of it. */
  readonly request: SetRequest;
  /** What the user told of the set, now or when it was saved before. */
  readonly details: SetDetails;
}

/** A film that can be scored. */
export type MeasuredFilm = Pick<AnalyzedFilm, 'film' | 'track'>;

/** The whole path for one film: facts, pose track (kept or measured), set report beside the lifter's earlier sets. */
export async function analyzeFilm(
  file: string,
  findFfmpeg: FindFfmpeg,
  request: SetRequest | UnnamedRequest,
  options: FilmOptions & SaidOptions,
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
  options: SaidOptions,
  progress: FilmProgress,
): Promise<AnalyzedFilm> {
  if (request.exercise === null) {
    return scoreUnnamed({ film, track }, request, options, progress);
  }
  const said = await withSaidBefore(film, request, options, progress);
  return scoreNamed({ film, track }, said, options, progress);
}

async function scoreNamed(
  { film, track }: MeasuredFilm,
  { request, details }: SaidOfSet,
  options: SaidOptions,
  progress: FilmProgress,
): Promise<AnalyzedFilm> {
  const whose = { ...options, lifterName: details.lifter ?? undefined };
  const analysis = await analyzeWithHistory(track, film, request, whose, progress);
  return { film, track, analysis, request, details };
}

/** What was told before is known only once the exercise is, and may ask the film anew. */
async function scoreUnnamed(
  { film, track }: MeasuredFilm,
  request: UnnamedRequest,
  options: SaidOptions,
  progress: FilmProgress,
): Promise<AnalyzedFilm> {
  const { analyzeUnnamed } = await import('../../analysis/recognition/analyzeUnnamed.js');
  const unnamed = analyzeUnnamed(track, film, request);
  const said = await withSaidBefore(film, unnamed.request, options, progress);
  if (!said.before) return { film, track, ...unnamed, details: said.details };
  if (said.request.exerciseChosenBy === 'user') return scoreNamed({ film, track }, said, options, progress);
  return {
    film,
    track,
    ...analyzeUnnamed(track, film, { ...said.request, exercise: null }),
    details: said.details,
  };
}
