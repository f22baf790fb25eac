import { readdir, stat } from 'node:fs/promises';
import { join, parse } from 'node:path';
import { looksLikeFilm } from '../filmNames.js';

/** A film without an answer yet, as it lies in the folder now. */
export interface WaitingFilm {
  readonly file: string;
  readonly bytes: number;
  /** Milliseconds of the Unix epoch: the date of its content, and its last change of any kind. */
  readonly recordedAt: number;
  readonly changedAt: number;
}

/** Where the answer of a film goes: beside it, under a name of ours. */
export function answerFileOf(film: string): string {
  const { dir, name } = parse(film);
  return join(dir, `${name}.tempofilm.txt`);
}

/**
 * The films of a folder that have no answer beside them yet, or changed after their answer was written (a copy that
 * stalled for a while), the oldest first.
 */
export async function waitingFilms(folder: string): Promise<readonly WaitingFilm[]> {
  const names = await readdir(folder);
  const films = names.filter(looksLikeFilm);
  const facts = await Promise.all(
    films.map(async (name) => {
      const file = join(folder, name);
      const film = await lookAt(file);
      if (film === null) return [];
      const answered = await stat(answerFileOf(file)).catch(() => null);
      return answered !== null && answered.mtimeMs >= film.changedAt ? [] : [film];
    }),
  );
  return facts.flat().sort((a, b) => a.recordedAt - b.recordedAt || a.file.localeCompare(b.file));
}

async function lookAt(file: string): Promise<WaitingFilm | null> {
  const found = await stat(file).catch(() => null);
  if (found?.isFile() !== true) return null;
  // A copy that keeps the film's date still changes its entry in the folder.
  const changedAt = Math.max(found.mtimeMs, found.ctimeMs);
  return { file, bytes: found.size, recordedAt: found.mtimeMs, changedAt };
}

/** Whether a film is no longer what it was, or gone. */
export async function changedSince(film: WaitingFilm): Promise<boolean> {
  const now = await lookAt(film.file);
  return now === null || now.bytes !== film.bytes || now.changedAt !== film.changedAt;
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
