import { Failure } from '../../core/failure.js';
import type { FollowedSet } from '../history/sets/readEntries.js';

/**
 * The sets of the exercise a user means: its id, else any whose id or name contains the words.
 *
 * @throws Failure of kind `usage` naming the exercises there are.
 */
export function setsOfExercise<Read extends FollowedSet>(
  entries: readonly Read[],
  named: string | null,
): readonly Read[] {
  if (named === null || entries.length === 0) return entries;
  const words = named.toLowerCase();
  const exact = entries.filter((entry) => entry.exercise.id === words);
  if (exact.length > 0) return exact;
  const found = entries.filter(
    ({ exercise }) => exercise.id.includes(words) || exercise.name.toLowerCase().includes(words),
  );
  if (found.length > 0) return found;
  const known = [...new Set(entries.map((entry) => entry.exercise.id))].sort();
  throw new Failure('usage', `No saved set is of "${named}".`, `Saved sets are of: ${known.join(', ')}.`);
}
