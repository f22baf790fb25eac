/** A film on the clock of the day. */
export interface TimedFilm {
  /** When the film's tag says it was recorded, seconds since 1970; null where it does not say. */
  readonly stampedSeconds: number | null;
  readonly durationSeconds: number;
  /** First move of the first rep and last move of the last, seconds of the film; null without reps. */
  readonly firstMoveSeconds: number | null;
  readonly lastMoveSeconds: number | null;
}

/** A rest between two films: somewhere between the two values, seconds. */
export interface RestBetweenFilms {
  readonly leastSeconds: number;
  readonly mostSeconds: number;
}

/** Whether a phone stamps the start or the end of its recordings. */
type Stamp = 'start' | 'end';

/** Recorded times are whole seconds, cut or rounded. */
const STAMP_UNCERTAINTY_SECONDS = 1;

/**
 * The rest before each film but the first, from the last move of one to the first move of the next; null where it
 * cannot be told. Some phones stamp the start of a recording, some its end: where one of the two would make films
 * overlap, the other holds for all of them, else the rest is a range that covers both.
 *
 * @param films of one phone, in order of recording.
 */
export function restsBetweenFilms(films: readonly TimedFilm[]): readonly (RestBetweenFilms | null)[] {
  const possible = (['start', 'end'] as const).filter((stamp) => isPossible(films, stamp));
  // Times that contradict both were changed after recording.
  if (possible.length === 0) return films.slice(1).map(() => null);
  return films.slice(1).map((film, index) => restBetween(films[index]!, film, possible));
}

function isPossible(films: readonly TimedFilm[], stamp: Stamp): boolean {
  return films.slice(1).every((film, index) => {
    const earlier = films[index]!;
    if (earlier.stampedSeconds === null || film.stampedSeconds === null) return true;
    const gap = startOf(film, stamp) - startOf(earlier, stamp) - earlier.durationSeconds;
    return gap >= -2 * STAMP_UNCERTAINTY_SECONDS;
  });
}

function restBetween(
  earlier: TimedFilm,
  later: TimedFilm,
  possible: readonly Stamp[],
): RestBetweenFilms | null {
  const { lastMoveSeconds } = earlier;
  const { firstMoveSeconds } = later;
  if (earlier.stampedSeconds === null || later.stampedSeconds === null) return null;
  if (lastMoveSeconds === null || firstMoveSeconds === null) return null;
  const rests = possible.map(
    (stamp) => startOf(later, stamp) + firstMoveSeconds - startOf(earlier, stamp) - lastMoveSeconds,
  );
  return {
    leastSeconds: Math.max(0, Math.min(...rests) - STAMP_UNCERTAINTY_SECONDS),
    mostSeconds: Math.max(...rests) + STAMP_UNCERTAINTY_SECONDS,
  };
}

function startOf({ stampedSeconds, durationSeconds }: TimedFilm, stamp: Stamp): number {
  return stamp === 'start' ? stampedSeconds! : stampedSeconds! - durationSeconds;
}
