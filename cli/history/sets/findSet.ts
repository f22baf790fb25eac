import { statSync } from 'node:fs';
import path from 'node:path';
import { Failure } from '../../../core/failure.js';
import type { History } from '../file/history.js';
import { filmKey } from './filmKey.js';
import { type HistoryEntry, readEntries } from './readEntries.js';

const SEE_LIST = 'tempofilm list shows the saved sets and their numbers.';

const NUMBER = /^#?(\d+)$/;

/** A set as the user names it. */
export interface NamedSet {
  /** Its number (`12` or `#12`), `last` for the one saved last, or its film. */
  readonly name: string;
  /** What is in the film of that name, where there is one: films are known again under whatever name. */
  readonly key: string | null;
}

/**
 * Looks whether a name is that of a film which is there.
 *
 * @throws Failure where the film can't be read.
 */
export async function namedSet(name: string): Promise<NamedSet> {
  const isFilm =
    name !== 'last' && !NUMBER.test(name) && statSync(name, { throwIfNoEntry: false })?.isFile() === true;
  return { name, key: isFilm ? await filmKey(name) : null };
}

/**
 * The saved set a user means.
 *
 * @throws Failure of kind `usage` when there is none, or several.
 */
export function findSet(history: History, { name, key }: NamedSet): HistoryEntry {
  const number = NUMBER.exec(name)?.[1];
  const entries = readEntries(history, number === undefined ? {} : { ids: [Number(number)] });
  if (number !== undefined) {
    if (entries[0] === undefined) throw new Failure('usage', `There is no set ${number}.`, SEE_LIST);
    return entries[0];
  }
  if (entries.length === 0)
    throw new Failure('usage', 'No sets are saved yet.', 'tempofilm analyze <film> saves one.');
  if (name === 'last') return lastSaved(entries);
  const found = entries.filter((entry) => (key === null ? wasCalled(entry, name) : entry.filmKey === key));
  const only = onlyOne(found, name);
  if (only !== null) return only;
  if (key === null) throw new Failure('usage', `There is no saved set of ${name}.`, SEE_LIST);
  throw new Failure(
    'usage',
    `The film ${name} is in no saved set.`,
    `Save one with: tempofilm analyze ${name} --exercise …`,
  );
}

function lastSaved(entries: readonly HistoryEntry[]): HistoryEntry {
  return entries.reduce((last, entry) =>
    entry.savedAt > last.savedAt || (entry.savedAt === last.savedAt && entry.id > last.id) ? entry : last,
  );
}

/** The path as it was given then, or the name of the file alone, of a film that is no longer there. */
function wasCalled(entry: HistoryEntry, name: string): boolean {
  return path.resolve(entry.filmFile) === path.resolve(name) || path.basename(entry.filmFile) === name;
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
