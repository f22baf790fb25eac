import { CATALOGUE } from '../exercises/catalogue.js';
import type { Exercise } from '../exercises/exercise.js';
import type { SessionSlot } from './sessionSlots.js';

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
 * Gives each film its planned set. A film named after an exercise takes the next set of that exercise, and none where
 * the plan has no more; any other takes the next set in the plan's order. Where there are just enough films for it,
 * each side of a one-sided exercise has a film of its own.
 *
 * @param films in order of recording.
 * @param exercises whose names films may bear.
 */
export function matchFilms<Film extends { readonly name: string }>(
  films: readonly Film[],
  slots: readonly SessionSlot[],
  exercises: readonly Exercise[] = CATALOGUE,
): SessionMatch<Film> {
  const open = isFilmedSideBySide(films.length, slots) ? slots.flatMap(bySide) : [...slots];
  const planned = [...new Set(slots.map((slot) => slot.exercise.id))];
  const known = [...new Set([...planned, ...exercises.map((exercise) => exercise.id)])];
  const named = films.map((film) => exerciseInName(film.name, planned, known));
  const taken = new Map<Film, SessionSlot>();
  const take = (film: Film, index: number) => {
    const [slot] = index < 0 ? [] : open.splice(index, 1);
    if (slot !== undefined) taken.set(film, slot);
  };
  // Those that say what they show go first, so that the others do not take their sets.
  films.forEach((film, index) => {
    const id = named[index];
    if (id !== null)
      take(
        film,
        open.findIndex((slot) => slot.exercise.id === id),
      );
  });
  films.forEach((film, index) => {
    if (named[index] === null) take(film, 0);
  });
  return { films: films.map((film) => ({ film, slot: taken.get(film) ?? null })), missing: open };
}

/**
 * The exercise a film is named after: "goblet_squats 2.mov" a squat, "curl.mp4" the single-arm curl where no other
 * curl is planned, "row.mp4" the only planned exercise that ends so. Null where the name says nothing.
 */
function exerciseInName(name: string, planned: readonly string[], known: readonly string[]): string | null {
  const text = `-${lettersOf(name.toLowerCase())}-`;
  const holds = (words: string) => text.includes(`-${words}-`) || text.includes(`-${words}s-`);
  const said = known.toSorted((a, b) => b.length - a.length).find((id) => holds(lettersOf(id))) ?? null;
  if (said !== null && planned.includes(said)) return said;
  const fitting = planned.filter((id) =>
    said === null ? holds(id.split('-').at(-1)!) : id.endsWith(`-${said}`),
  );
  return fitting.length === 1 ? fitting[0]! : said;
}

function lettersOf(text: string): string {
  return text.replaceAll(/[^a-z]+/g, '-');
}

function isFilmedSideBySide(films: number, slots: readonly SessionSlot[]): boolean {
  return films > slots.length && films === slots.flatMap(bySide).length;
}

function bySide(slot: SessionSlot): readonly SessionSlot[] {
  const { limbs } = slot.exercise;
  return limbs === 'one-arm' || limbs === 'one-leg' ? [slot, slot] : [slot];
}
