import type { PlannedSeconds } from '../plan/plan.js';
import type { MeasuredPhase, MeasuredRep, PhaseKind } from '../segmentation/bout.js';

export type Verdict = 'met' | 'short' | 'long' | 'unclear';

/** How far a phase may lie from the plan: the larger of the two. */
export interface Tolerance {
  readonly seconds: number;
  /** Share of the planned seconds. */
  readonly share: number;
}

export const DEFAULT_TOLERANCE: Tolerance = { seconds: 0.3, share: 0.15 };

/** A planned 0 means no deliberate pause: only longer stillness than this is one. */
const LONGEST_TURN_SECONDS = 0.5;

/** An explosive lift is met at this time or less… */
const EXPLOSIVE_SECONDS = 1;
/** …or within this share of the quickest lift of the bout. */
const EXPLOSIVE_SHARE = 0.25;

/** Guards verdicts at exact limits against rounding of binary fractions. */
const ROUNDING = 1e-9;

/** What was planned for a phase, by kind. */
export const PLANNED_FIELD = {
  eccentric: 'eccentric',
  'stretched-hold': 'stretchedHold',
  concentric: 'concentric',
  'contracted-hold': 'contractedHold',
} as const satisfies Record<PhaseKind, string>;

/**
 * Holds a measured time against planned seconds: `met` when value ± uncertainty lies wholly inside planned ±
 * tolerance, `short` or `long` when wholly outside, else `unclear`. All in seconds.
 */
export function judgeSeconds(
  seconds: number,
  uncertaintySeconds: number,
  planned: number,
  tolerance: Tolerance = DEFAULT_TOLERANCE,
): Verdict {
  const allowed = Math.max(tolerance.seconds, tolerance.share * planned);
  return planned === 0
    ? judgeAgainst(seconds, uncertaintySeconds, Number.NEGATIVE_INFINITY, LONGEST_TURN_SECONDS)
    : judgeAgainst(seconds, uncertaintySeconds, planned - allowed, planned + allowed);
}

/**
 * Holds an explosive concentric against its intention: met at 1 s or less, or within 25 % of the bout's
 * quickest concentric. A slow one is `long`; whether effort or fatigue made it so cannot be seen on film.
 */
export function judgeExplosive(
  seconds: number,
  uncertaintySeconds: number,
  quickestSeconds: number,
): Verdict {
  const longest = Math.max(EXPLOSIVE_SECONDS, (1 + EXPLOSIVE_SHARE) * quickestSeconds);
  return judgeAgainst(seconds, uncertaintySeconds, Number.NEGATIVE_INFINITY, longest);
}

/** What a phase's verdict depends on besides its own time. */
export interface PhaseContext {
  readonly planned: PlannedSeconds;
  readonly tolerance: Tolerance;
  /** Quickest concentric of the bout, seconds. */
  readonly quickestConcentricSeconds: number;
  /** True where nothing bounds the phase (the last hold of a bout). */
  readonly openEnded: boolean;
  /** True where the film shows the phase only in part, or the move was not made. */
  readonly incomplete: boolean;
}

/** The verdict of one phase, or null where nothing was prescribed or nothing can be judged by definition. */
export function judgePhase(phase: MeasuredPhase, context: PhaseContext): Verdict | null {
  if (context.planned === null || context.openEnded) return null;
  if (context.planned === 'X' && phase.kind !== 'concentric') return null;
  if (context.incomplete) return 'unclear';
  const seconds = phaseSeconds(phase);
  return context.planned === 'X'
    ? judgeExplosive(seconds, phase.uncertaintySeconds, context.quickestConcentricSeconds)
    : judgeSeconds(seconds, phase.uncertaintySeconds, context.planned, context.tolerance);
}

/** Length of a phase, never below 0. */
export function phaseSeconds(phase: MeasuredPhase): number {
  return Math.max(0, phase.end.seconds - phase.start.seconds);
}

/** Seconds a rep spent in one kind of phase, or null where the phase was not seen. */
export function secondsIn(rep: MeasuredRep, kind: PhaseKind): number | null {
  const phases = rep.phases.filter((phase) => phase.kind === kind);
  return phases.length === 0 ? null : phases.reduce((sum, phase) => sum + phaseSeconds(phase), 0);
}

function judgeAgainst(seconds: number, uncertainty: number, least: number, most: number): Verdict {
  const low = seconds - uncertainty;
  const high = seconds + uncertainty;
  if (low >= least - ROUNDING && high <= most + ROUNDING) return 'met';
  if (high < least - ROUNDING) return 'short';
  return low > most + ROUNDING ? 'long' : 'unclear';
}
