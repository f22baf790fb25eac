import { CATALOGUE, findExercise } from '../exercises/catalogue.js';
import type { Exercise } from '../exercises/exercise.js';
import type { PlannedExercise, SessionPlan } from '../plan/sessionPlan.js';

/** One planned set of a session. */
export interface SessionSlot {
  readonly planned: PlannedExercise;
  readonly exercise: Exercise;
  /** Which set of its exercise, from 1. */
  readonly setNumber: number;
  /** Sets of one turn of a pair share it, so that they are done back to back; every other set has its own. */
  readonly turn: number;
}

/**
 * Every planned set in the order it is done: exercises of a pair take turns, the others follow one another.
 *
 * @param exercises the catalogue, with the user's own exercises where there are any.
 */
export function sessionSlots(
  plan: SessionPlan,
  exercises: readonly Exercise[] = CATALOGUE,
): readonly SessionSlot[] {
  const slots: SessionSlot[] = [];
  const done = new Map<string, number>();
  let turn = 0;
  const add = (planned: PlannedExercise) => {
    const setNumber = (done.get(planned.exerciseId) ?? 0) + 1;
    done.set(planned.exerciseId, setNumber);
    slots.push({ planned, exercise: findExercise(planned.exerciseId, exercises), setNumber, turn });
  };
  for (const group of pairedGroups(plan.exercises)) {
    const rounds = Math.max(...group.map((planned) => planned.sets));
    for (let round = 0; round < rounds; round += 1) {
      turn += 1;
      for (const planned of group) if (round < planned.sets) add(planned);
    }
  }
  return slots;
}

/** Neighbours with the same pair name belong together. */
function pairedGroups(exercises: readonly PlannedExercise[]): readonly (readonly PlannedExercise[])[] {
  const groups: PlannedExercise[][] = [];
  for (const planned of exercises) {
    const last = groups.at(-1);
    if (last !== undefined && planned.pair !== null && last[0]!.pair === planned.pair) last.push(planned);
    else groups.push([planned]);
  }
  return groups;
}

/** What the plan wants between two sets: a rest, none between the sets of a pair, or the lifter changes sides. */
export type PlannedPause =
  | { readonly kind: 'rest'; readonly seconds: number }
  | { readonly kind: 'back-to-back' }
  | { readonly kind: 'side-change' };

/** The pause planned between two sets; null where the plan says nothing of it. */
export function plannedPause(before: SessionSlot | null, after: SessionSlot | null): PlannedPause | null {
  if (before === null || after === null) return null;
  if (before === after) return { kind: 'side-change' };
  if (before.turn === after.turn) return { kind: 'back-to-back' };
  const seconds = before.planned.plan.restSeconds;
  return seconds === null ? null : { kind: 'rest', seconds };
}
