import { closest, distance } from 'fastest-levenshtein';
import { Failure } from '../../core/failure.js';
import { ARM_PRESSES } from './armPresses.js';
import { ARM_PULLS } from './armPulls.js';
import { ARM_RAISES } from './armRaises.js';
import type { Exercise } from './exercise.js';
import { HIPS } from './hips.js';
import { LEGS } from './legs.js';

/** Every exercise the program knows, by region of the body. Users add their own from a file. */
export const CATALOGUE: readonly Exercise[] = [...ARM_PULLS, ...ARM_RAISES, ...ARM_PRESSES, ...LEGS, ...HIPS];

/**
 * Looks an exercise up by its id; capitals, spaces and underscores are forgiven ("Single arm row").
 *
 * @param exercises the catalogue, with the user's own exercises where there are any.
 * @throws Failure (usage) naming the nearest id where the asked one is unknown.
 */
export function findExercise(id: string, exercises: readonly Exercise[] = CATALOGUE): Exercise {
  const wanted = asId(id);
  const found = exercises.find((exercise) => exercise.id === wanted);
  if (found !== undefined) return found;
  const nearest = nearestExerciseId(wanted, exercises);
  throw new Failure(
    'usage',
    `There is no exercise "${id}".`,
    nearest === null
      ? 'List what is known with: tempofilm exercises'
      : `Did you mean "${nearest}"? List all with: tempofilm exercises`,
  );
}

/** The id most like a mistyped one, or null where nothing is alike (over half of the letters differ). */
export function nearestExerciseId(id: string, exercises: readonly Exercise[] = CATALOGUE): string | null {
  const wanted = asId(id);
  if (wanted === '' || exercises.length === 0) return null;
  const containing = exercises.filter((exercise) => exercise.id.split('-').includes(wanted));
  if (containing.length > 0) return containing[0]!.id;
  const nearest = closest(
    wanted,
    exercises.map((exercise) => exercise.id),
  );
  return distance(wanted, nearest) * 2 <= Math.max(wanted.length, nearest.length) ? nearest : null;
}

function asId(text: string): string {
  return text
    .trim()
    .toLowerCase()
    .replaceAll(/[\s_-]+/g, '-');
}
