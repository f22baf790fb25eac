import { CATALOGUE, findExercise } from '../../analysis/exercises/catalogue.js';
import type { Exercise } from '../../analysis/exercises/exercise.js';
import { exerciseScreen } from '../views/terminal/exerciseScreen.js';
import { exerciseTable } from '../views/terminal/exerciseTable.js';
import { styleOf } from '../views/terminal/style.js';

/**
 * What the user asks to know about exercises: all of them, those whose id or name holds the given words, or one.
 *
 * @throws Failure (usage) naming the nearest exercise where the asked one is unknown.
 */
export function showExercises(asked: string | null, exercises: readonly Exercise[] = CATALOGUE): string {
  const style = styleOf(process.stdout);
  if (asked === null) return exerciseTable(exercises, style);
  const exact = exercises.find(({ id }) => id === asked.trim().toLowerCase());
  const alike = exercises.filter((exercise) => holdsWords(exercise, asked));
  if (exact === undefined && alike.length > 1) return exerciseTable(alike, style);
  return exerciseScreen(exact ?? alike[0] ?? findExercise(asked, exercises), style);
}

function holdsWords({ id, name }: Exercise, asked: string): boolean {
  const words = asked.toLowerCase().split(/[\s_-]+/);
  return words.every((word) => id.includes(word) || name.toLowerCase().includes(word));
}
