import type { SetReport } from '../../analysis/report/setReport.js';
import type { RestBetweenFilms } from '../../analysis/session/restBetweenFilms.js';
import type { PlannedPause, SessionSlot } from '../../analysis/session/sessionSlots.js';
import { type BoutFigures, boutFigures } from '../history/sets/figures.js';
import type { HistoryEntry } from '../history/sets/readEntries.js';

export const SESSION_SCHEMA_ID = 'tempofilm.session/1';

/** One film of a workout, answered. */
export interface SessionSet {
  readonly film: string;
  /** Null where the plan has no set for it. */
  readonly slot: SessionSlot | null;
  /** Null where the film could not be read; then `fault` says why. */
  readonly report: SetReport | null;
  readonly fault: string | null;
  readonly bouts: readonly BoutFigures[];
  /** From the last rep of the film before to the first of this one; null for the first, or where nobody can tell. */
  readonly restBefore: RestBetweenFilms | null;
  /** What the plan wants between the set before and this one; null where it says nothing. */
  readonly plannedPause: PlannedPause | null;
  /** The set of the same exercise and number in the last session that had it. */
  readonly lastTime: HistoryEntry | null;
}

export interface SessionReport {
  readonly schema: typeof SESSION_SCHEMA_ID;
  readonly name: string | null;
  readonly lifter: string | null;
  /** False where films do not say when they were recorded: they are then in order of the dates of their files. */
  readonly orderIsRecorded: boolean;
  readonly sets: readonly SessionSet[];
  /** Planned sets that no film was found for. */
  readonly missing: readonly SessionSlot[];
}

export function sessionSet(parts: Omit<SessionSet, 'bouts'>): SessionSet {
  return { ...parts, bouts: parts.report === null ? [] : boutFigures(parts.report) };
}

/** A film that could not be opened, at the end of the session since nobody knows when it was recorded. */
export function unreadFilm(film: string, fault: string): SessionSet {
  return {
    film,
    slot: null,
    report: null,
    fault,
    bouts: [],
    restBefore: null,
    plannedPause: null,
    lastTime: null,
  };
}

/** A session ends when nothing was filmed for this long. */
const SESSION_GAP_MILLISECONDS = 6 * 3_600_000;

/**
 * The set of that exercise and number in the last session before this one; warm-ups are not counted.
 *
 * @param entries of the lifter, in order of recording.
 * @param start of this session, milliseconds since 1970.
 */
export function setOfLastTime(
  entries: readonly HistoryEntry[],
  { exercise, setNumber }: Pick<SessionSlot, 'exercise' | 'setNumber'>,
  start: number,
): HistoryEntry | null {
  const timeOf = (entry: HistoryEntry) => Date.parse(entry.recordedAt.instant);
  const earlier = entries.filter(
    (entry) =>
      entry.exercise.id === exercise.id &&
      !entry.details.warmUp &&
      timeOf(entry) < start - SESSION_GAP_MILLISECONDS,
  );
  const last = earlier.at(-1);
  if (last === undefined) return null;
  const ofThatSession = earlier.filter((entry) => timeOf(last) - timeOf(entry) < SESSION_GAP_MILLISECONDS);
  return ofThatSession[setNumber - 1] ?? null;
}
