import { factsKey, openFactsCache } from '../../core/media/factsCache.js';
import type { FilmFacts } from '../../core/media/film.js';
import { refuseUnreadable } from '../../core/media/readableFilm.js';
import { cacheFolder } from '../folders.js';
import type { FilmOptions } from '../options/filmOptions.js';
import type { FindFfmpeg } from './ffmpegWhenNeeded.js';

/**
 * The facts of a film: those kept from an earlier run where the film is the same, else read now and kept. An ffmpeg
 * that is named is always asked itself, since another one may have read the film otherwise.
 *
 * @throws Failure as `readFilmFacts` does, and (installation) where there is no ffmpeg and it is needed.
 */
export async function filmFactsOf(
  file: string,
  findFfmpeg: FindFfmpeg,
  { ffmpeg: named }: Pick<FilmOptions, 'ffmpeg'>,
): Promise<FilmFacts> {
  await refuseUnreadable(file);
  const cache = openFactsCache(cacheFolder());
  const key = await factsKey(file);
  const kept = named === undefined ? await cache.read(key, file) : null;
  if (kept !== null) return kept;
  const { readFilmFacts } = await import('../../core/media/filmFacts.js');
  const film = await readFilmFacts(file, await findFfmpeg());
  // Where nothing can be kept, the pose track says so.
  await cache.write(key, film).catch(() => undefined);
  return film;
}
