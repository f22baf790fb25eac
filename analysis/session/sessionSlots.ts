import { findExercise } from '../exercises/catalogue.js';
import type { PlannedExercise, SessionPlan } from '../plan/sessionPlan.js';

/** One planned set of a session. */
export interface SessionSlot {
  readonly planned: PlannedExercise;
  /** Which set of its exercise, from 1. */
  readonly setNumber: number;
}

/** Every planned set in the order it is done: exercises of a pair take turns, the others follow one another. */
export function sessionSlots(plan: SessionPlan): readonly SessionSlot[] {
  const slots: SessionSlot[] = [];
  const done = new Map<string, number>();
  const add = (planned: PlannedExercise) => {
    const setNumber = (done.get(planned.exerciseId) ?? 0) + 1;
    done.set(planned.exerciseId, setNumber);
    slots.push({ planned, setNumber });
  };
  for (const group of pairedGroups(plan.exercises)) {
    const rounds = Math.max(...group.map((planned) => planned.sets));
    for (let round = 0; round < rounds; round += 1) {
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

export interface MatchedFilm<Film> {
  readonly film: Film;
  /** Null where the plan has no set left for it. */
  readonly slot: SessionSlot | null;
}

export interface SessionMatch<Film> {
  readonly films: readonly MatchedFilm<Film>[];
  /** Planned sets without a film. */
  readonly missing: readonly SessionSlot[];
}

/**
 * Gives each film its planned set. A film whose name holds the id of a planned exercise takes the next set of that
 * exercise; any other takes the next set in the plan's order. Where there are just enough films for it, each side of
 * a one-sided exercise has a film of its own.
 *
 * @param films in order of recording.
 */
export function matchFilms<Film extends { readonly name: string }>(
  films: readonly Film[],
  slots: readonly SessionSlot[],
): SessionMatch<Film> {
  const open = isFilmedSideBySide(films.length, slots) ? slots.flatMap(bySide) : [...slots];
  const ids = [...new Set(slots.map((slot) => slot.planned.exerciseId))].sort((a, b) => b.length - a.length);
  const matched = films.map((film) => {
    const named = ids.find((id) => film.name.toLowerCase().includes(id));
    const index = named === undefined ? 0 : open.findIndex((slot) => slot.planned.exerciseId === named);
    return { film, slot: open.splice(Math.max(0, index), index < 0 ? 0 : 1)[0] ?? null };
  });
  return { films: matched, missing: open };
}

function isFilmedSideBySide(films: number, slots: readonly SessionSlot[]): boolean {
  return films > slots.length && films === slots.flatMap(bySide).length;
}

function bySide(slot: SessionSlot): readonly SessionSlot[] {
  const { limbs } = findExercise(slot.planned.exerciseId);
  return limbs === 'one-arm' || limbs === 'one-leg' ? [slot, slot] : [slot];
}
