import { readdirSync, statSync } from 'node:fs';
import path from 'node:path';
import { Failure } from '../../core/failure.js';

const FILM_ENDINGS = new Set([
  '.mp4',
  '.mov',
  '.m4v',
  '.mkv',
  '.webm',
  '.avi',
  '.3gp',
  '.mts',
  '.mpg',
  '.mpeg',
  '.wmv',
]);

/**
 * The films of a workout: those named, and all that lie in the folders named.
 *
 * @throws Failure of kind `film` where there is none.
 */
export function sessionFilms(named: readonly string[]): readonly string[] {
  const films = named.flatMap((name) => {
    if (!(statSync(name, { throwIfNoEntry: false })?.isDirectory() ?? false)) return [name];
    return readdirSync(name)
      .filter((file) => !file.startsWith('.') && FILM_ENDINGS.has(path.extname(file).toLowerCase()))
      .sort()
      .map((file) => path.join(name, file));
  });
  if (films.length === 0) throw new Failure('film', `There is no film in ${named.join(', ')}.`);
  return [...new Set(films)];
}
