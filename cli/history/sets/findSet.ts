import { existsSync, statSync } from 'node:fs';
import path from 'node:path';
import { Failure } from '../../../core/failure.js';
import type { History } from '../file/history.js';
import { filmKey } from './filmKey.js';
import { type HistoryEntry, readEntries } from './readSets.js';

const SEE_LIST = 'tempofilm list shows the saved sets and their numbers.';

/**
 * The saved set a user means: its number (`12` or `#12`), `last` for the one saved last, or the name of its film.
 *
 * @throws Failure of kind `usage` when there is none, or several.
 */
export function findSet(history: History, named: string): HistoryEntry {
  const number = /^#?(\d+)$/.exec(named)?.[1];
  const entries = readEntries(history, number === undefined ? {} : { ids: [Number(number)] });
  if (number !== undefined) {
    if (entries[0] === undefined) throw new Failure('usage', `There is no set ${number}.`, SEE_LIST);
    return entries[0];
  }
  if (entries.length === 0)
    throw new Failure('usage', 'No sets are saved yet.', 'tempofilm analyze <film> saves one.');
  if (named === 'last') return lastSaved(entries);
  const found = entries.filter((entry) => isOfFilm(entry, named));
  const only = onlyOne(found, named);
  if (only !== null) return only;
  throw new Failure('usage', `There is no saved set of ${named}.`, SEE_LIST);
}

function lastSaved(entries: readonly HistoryEntry[]): HistoryEntry {
  return entries.reduce((last, entry) =>
    entry.savedAt > last.savedAt || (entry.savedAt === last.savedAt && entry.id > last.id) ? entry : last,
  );
}

/** The path as it was given then, or the same file name where the path no longer says more. */
function isOfFilm(entry: HistoryEntry, named: string): boolean {
  if (path.resolve(entry.filmFile) === path.resolve(named)) return true;
  return !existsSync(named) && path.basename(entry.filmFile) === named;
}

/**
 * As `findSet`, and a film that exists is known again by what is in it, under whatever name.
 *
 * @throws Failure of kind `usage` when it is in no saved set.
 */
export async function findSetOrFilm(history: History, named: string): Promise<HistoryEntry> {
  if (!existsSync(named) || statSync(named).isDirectory()) return findSet(history, named);
  const key = await filmKey(named);
  const only = onlyOne(
    readEntries(history).filter((entry) => entry.filmKey === key),
    named,
  );
  if (only !== null) return only;
  throw new Failure(
    'usage',
    `The film ${named} is in no saved set.`,
    `Save one with: tempofilm analyze ${named} --exercise …`,
  );
}

/**
 * The one set of a film; null where there is none.
 *
 * @throws Failure of kind `usage`, with their numbers, where there are several.
 */
export function onlyOne(found: readonly HistoryEntry[], film: string): HistoryEntry | null {
  if (found.length < 2) return found[0] ?? null;
  const numbers = found.map((entry) => entry.id).join(', ');
  throw new Failure(
    'usage',
    `There are several sets of ${film}.`,
    `Give the number of one of them: ${numbers}.`,
  );
}
