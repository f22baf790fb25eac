import type { PlannedExercise, SessionPlan } from './sessionPlan.js';

/**
 * What the plan wants of one set of an exercise: the entry that holds the set of this number, counted over all
 * entries of the exercise; further sets are held against the last entry. Null where the plan has no such exercise.
 *
 * @param setNumber from 1.
 */
export function plannedSet(session: SessionPlan, exerciseId: string, setNumber = 1): PlannedExercise | null {
  const entries = session.exercises.filter((entry) => entry.exerciseId === exerciseId);
  let before = 0;
  for (const entry of entries) {
    before += entry.sets;
    if (setNumber <= before) return entry;
  }
  return entries.at(-1) ?? null;
}
