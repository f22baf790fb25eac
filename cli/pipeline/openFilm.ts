import { Failure } from '../../core/failure.js';
import type { FilmFacts } from '../../core/media/film.js';
import { refuseHugePart } from '../../core/media/filmLimits.js';
import type { FilmOptions } from '../options/filmOptions.js';
import type { FindFfmpeg } from './ffmpegWhenNeeded.js';
import { filmFactsOf } from './filmFactsOf.js';

/**
 * Reads a film's facts and holds the options against them.
 *
 * @throws Failure (film) where it can't be read or is too long for one go; (usage) where `--from`, `--to` or `--lifter` lie outside it.
 */
export async function openFilm(
  file: string,
  findFfmpeg: FindFfmpeg,
  options: FilmOptions,
): Promise<FilmFacts> {
  const film = await filmFactsOf(file, findFfmpeg, options);
  refuseOutside(film, '--from', options.from);
  refuseOutside(film, '--lifter', options.lifter?.seconds);
  const end = Math.min(film.durationSeconds, options.to ?? Number.POSITIVE_INFINITY);
  refuseHugePart(file, end - (options.from ?? 0), film.frameRate);
  if (options.speedFactor === undefined) return film;
  return { ...film, slowMotionFactor: options.speedFactor, slowMotionDoubtful: false };
}

/**
 * Says early that the asked part of the film is empty.
 *
 * @throws Failure (usage).
 */
export function refuseBackwardsPart({ from, to }: Pick<FilmOptions, 'from' | 'to'>): void {
  if (to === undefined || (from ?? 0) < to) return;
  throw new Failure(
    'usage',
    `--to (${to} s) must come after --from (${from ?? 0} s).`,
    'Swap them or leave one out.',
  );
}

function refuseOutside(film: FilmFacts, option: string, seconds: number | undefined): void {
  if (seconds === undefined || seconds <= film.durationSeconds) return;
  throw new Failure(
    'usage',
    `${option} names ${seconds} s, but "${film.file}" is only ${film.durationSeconds.toFixed(1)} s long.`,
    'Give a time that a player shows for this film.',
  );
}
