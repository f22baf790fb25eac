import { readdirSync, statSync } from 'node:fs';
import path from 'node:path';
import { Failure } from '../../core/failure.js';
import { looksLikeFilm } from '../filmNames.js';

/**
 * The films of a workout: those named, and all that lie in the folders named.
 *
 * @throws Failure of kind `film` where there is none.
 */
export function sessionFilms(named: readonly string[]): readonly string[] {
  const films = named.flatMap((name) => {
    if (!(statSync(name, { throwIfNoEntry: false })?.isDirectory() ?? false)) return [name];
    return readdirSync(name)
      .filter(looksLikeFilm)
      .sort()
      .map((file) => path.join(name, file));
  });
  if (films.length === 0) throw new Failure('film', `There is no film in ${named.join(', ')}.`);
  return [...new Set(films)];
}
