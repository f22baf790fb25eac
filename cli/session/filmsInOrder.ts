import { statSync } from 'node:fs';
import path from 'node:path';
import { Failure } from '../../core/failure.js';
import type { FilmFacts } from '../../core/media/film.js';
import type { FilmOptions } from '../options/filmOptions.js';
import type { FindFfmpeg } from '../pipeline/ffmpegWhenNeeded.js';
import { openFilm } from '../pipeline/openFilm.js';

/** A film of a workout, opened. */
export interface SessionFilm {
  readonly file: string;
  /** What the film may say of its exercise: the name of its file. */
  readonly name: string;
  readonly facts: FilmFacts;
  /** Milliseconds since 1970, by the film's own tag or else the date of its file. */
  readonly recordedMilliseconds: number;
}

/** A film that could not be opened. */
export interface UnreadFilm {
  readonly file: string;
  readonly failure: Failure;
}

export interface SessionFilms {
  readonly films: readonly SessionFilm[];
  readonly unread: readonly UnreadFilm[];
  /** False where some film does not say when it was recorded. */
  readonly orderIsRecorded: boolean;
}

/** Opens the films of a workout and puts them in order of recording; those that can't be read come back apart. */
export async function filmsInOrder(
  files: readonly string[],
  findFfmpeg: FindFfmpeg,
  options: FilmOptions,
): Promise<SessionFilms> {
  const films: SessionFilm[] = [];
  const unread: UnreadFilm[] = [];
  for (const file of files) {
    try {
      const facts = await openFilm(file, findFfmpeg, options);
      const recordedMilliseconds =
        facts.recordedAt === null ? statSync(file).mtimeMs : Date.parse(facts.recordedAt);
      films.push({ file, name: path.basename(file), facts, recordedMilliseconds });
    } catch (thrown) {
      if (!(thrown instanceof Failure) || thrown.kind !== 'film') throw thrown;
      unread.push({ file, failure: thrown });
    }
  }
  films.sort(
    (one, other) =>
      one.recordedMilliseconds - other.recordedMilliseconds ||
      one.name.localeCompare(other.name, 'en', { numeric: true }),
  );
  return { films, unread, orderIsRecorded: films.every(({ facts }) => facts.recordedAt !== null) };
}
