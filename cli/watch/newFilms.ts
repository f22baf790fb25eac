import { readdir, stat } from 'node:fs/promises';
import { extname, join, parse } from 'node:path';

const FILM_ENDINGS = new Set(['.mp4', '.mov', '.m4v', '.webm', '.mkv', '.avi', '.3gp']);

/** A film without an answer yet, as it lies in the folder now. */
export interface WaitingFilm {
  readonly file: string;
  readonly bytes: number;
  /** Milliseconds of the Unix epoch. */
  readonly changedAt: number;
}

/** Where the answer of a film goes: beside it, under a name of ours. */
export function answerFileOf(film: string): string {
  const { dir, name } = parse(film);
  return join(dir, `${name}.tempofilm.txt`);
}

/**
 * The films of a folder that have no answer beside them yet, the oldest first. Hidden files are left alone: phones
 * and cloud folders copy under such names.
 */
export async function waitingFilms(folder: string): Promise<readonly WaitingFilm[]> {
  const names = await readdir(folder);
  const present = new Set(names);
  const films = names.filter(
    (name) =>
      !name.startsWith('.') &&
      FILM_ENDINGS.has(extname(name).toLowerCase()) &&
      !present.has(answerFileOf(name)),
  );
  const facts = await Promise.all(
    films.map(async (name) => {
      const file = join(folder, name);
      const found = await stat(file).catch(() => null);
      return found?.isFile() ? [{ file, bytes: found.size, changedAt: found.mtimeMs }] : [];
    }),
  );
  return facts.flat().sort((a, b) => a.changedAt - b.changedAt || a.file.localeCompare(b.file));
}

/**
 * Films that did not change between two looks, which are wholly copied. A file without content is still to come.
 */
export function settledFilms(
  before: readonly WaitingFilm[],
  now: readonly WaitingFilm[],
): readonly WaitingFilm[] {
  return now.filter(
    ({ file, bytes, changedAt }) =>
      bytes > 0 &&
      before.some(
        (earlier) => earlier.file === file && earlier.bytes === bytes && earlier.changedAt === changedAt,
      ),
  );
}
