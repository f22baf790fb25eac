import type { PlannedSeconds } from '../plan/plan.js';
import type { PhaseKind } from '../segmentation/bout.js';

export type Verdict = 'met' | 'short' | 'long' | 'unclear';

/** How far a phase may be from its plan: the larger of so many seconds and a share of the planned seconds. */
export interface Tolerance {
  readonly seconds: number;
  readonly share: number;
}

export const DEFAULT_TOLERANCE: Tolerance = { seconds: 0.3, share: 0.15 };
/** A planned 0 means no deliberate pause: up to this many seconds are none. */
const NO_PAUSE_SECONDS = 0.5;
/** An explosive lift is quick enough at this many seconds or less … */
const EXPLOSIVE_SECONDS = 1;
/** … or within this share of the bout's quickest lift. */
const EXPLOSIVE_SHARE = 0.25;

export interface MeasuredSeconds {
  readonly seconds: number;
  /** Half width of the 95 % interval. */
  readonly uncertaintySeconds: number;
}

/**
 * Holds a measured phase against its plan: `met` or `short`/`long` only where the whole interval lies inside or
 * outside the tolerance, else `unclear`; null where nothing was prescribed.
 *
 * @param quickestSeconds the bout's quickest concentric, for an explosive one
 */
export function tempoVerdict(
  kind: PhaseKind,
  measured: MeasuredSeconds,
  planned: PlannedSeconds,
  quickestSeconds: number,
  tolerance: Tolerance = DEFAULT_TOLERANCE,
): Verdict | null {
  if (planned === null) return null;
  if (planned === 'X') return kind === 'concentric' ? explosiveVerdict(measured, quickestSeconds) : null;
  if (planned === 0) return against(measured, 0, NO_PAUSE_SECONDS);
  const slack = Math.max(tolerance.seconds, tolerance.share * planned);
  return against(measured, Math.max(0, planned - slack), planned + slack);
}

function explosiveVerdict(measured: MeasuredSeconds, quickestSeconds: number): Verdict {
  return against(measured, 0, Math.max(EXPLOSIVE_SECONDS, (1 + EXPLOSIVE_SHARE) * quickestSeconds));
}

function against({ seconds, uncertaintySeconds }: MeasuredSeconds, least: number, most: number): Verdict {
  const low = seconds - uncertaintySeconds;
  const high = seconds + uncertaintySeconds;
  if (high < least) return 'short';
  if (low > most) return 'long';
  // Nothing lasts less than no time: a plan that allows 0 s cannot be fallen short of.
  return (low >= least || least === 0) && high <= most ? 'met' : 'unclear';
}
