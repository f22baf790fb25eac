import type { SmoothCurve } from '../../core/motion/smoothing.js';
import { endSeconds, speedAt } from '../../core/motion/speedSpline.js';
import type { Exercise, RangeEnd } from '../exercises/exercise.js';
import type { Extreme } from './extremes.js';

/** A swing of the driving angle from one turning point to the next. */
export interface Move {
  readonly kind: 'concentric' | 'eccentric';
  readonly from: Extreme;
  readonly to: Extreme;
}

/** Two moves that may be a rep: away from the start position and back; one of them where the film cuts it. */
export interface CandidateRep {
  /** Its place among all candidates of the curve; neighbours share a turning point in the start position. */
  readonly order: number;
  readonly away: Move | null;
  readonly back: Move | null;
  /** The turning point at the far end. */
  readonly far: Extreme;
  readonly cut: 'start' | 'end' | null;
}

export function movesBetween(extremes: readonly Extreme[], exercise: Exercise): readonly Move[] {
  return extremes.slice(1).map((to, i) => {
    const rising = to.kind === 'high';
    return {
      kind: rising === (exercise.concentric === 'raises') ? 'concentric' : 'eccentric',
      from: extremes[i]!,
      to,
    };
  });
}

/** A film that shows the far end longer than this before the first or after the last move does not cut a rep. */
const LONGEST_CUT_HOLD_SECONDS = 4;

/**
 * Pairs moves into candidate reps for a start position. A move away at the curve's end, or a move back at its
 * beginning, is a rep cut by the film where the film really ends or begins there.
 */
export function pairMoves(
  moves: readonly Move[],
  start: RangeEnd,
  curve: SmoothCurve,
  film: { readonly startSeconds: number; readonly endSeconds: number },
): readonly CandidateRep[] {
  const leaving = start === 'stretched' ? 'concentric' : 'eccentric';
  const reps: CandidateRep[] = [];
  const first = moves[0];
  if (first !== undefined && first.kind !== leaving) {
    const shown = first.from.seconds - film.startSeconds;
    if (shown <= LONGEST_CUT_HOLD_SECONDS)
      reps.push({ order: 0, away: null, back: first, far: first.from, cut: 'start' });
  }
  for (let i = 0; i < moves.length; i++) {
    const away = moves[i]!;
    if (away.kind !== leaving) continue;
    const back = moves[i + 1];
    if (back === undefined) {
      const shown = film.endSeconds - away.to.seconds;
      if (shown <= LONGEST_CUT_HOLD_SECONDS)
        reps.push({ order: i + 1, away, back: null, far: away.to, cut: 'end' });
      continue;
    }
    reps.push({ order: i + 1, away, back, far: away.to, cut: cutOf(away, back, curve, film) });
  }
  return reps;
}

/** Whether the film begins or ends while one of the rep's moves is still under way. */
function cutOf(
  away: Move,
  back: Move,
  curve: SmoothCurve,
  film: { readonly startSeconds: number; readonly endSeconds: number },
): 'start' | 'end' | null {
  const { spline } = curve;
  const nearStart = away.from.atEdge && spline.startSeconds - film.startSeconds < 0.5;
  if (nearStart && isUnderWay(away, leastSpeed(curve, spline.startSeconds + 0.03), back)) return 'start';
  const last = endSeconds(spline);
  const nearEnd = back.to.seconds > last - 0.3 && film.endSeconds - last < 0.5;
  if (nearEnd && isUnderWay(back, leastSpeed(curve, last - 0.05), away)) return 'end';
  return null;
}

/** The speed that is there beyond its standard error: at the ends of a curve noise alone looks like movement. */
function leastSpeed({ spline, standardErrors }: SmoothCurve, seconds: number): number {
  const knot = Math.round((seconds - spline.startSeconds) / spline.stepSeconds);
  return Math.abs(speedAt(spline, seconds)) - standardErrors.speeds[knot]!;
}

/** Under way: still faster than a quarter of the move's mean speed and with part of the way, seen in its pair, missing. */
function isUnderWay(move: Move, edgeSpeed: number, pair: Move): boolean {
  const excursion = Math.abs(move.to.value - move.from.value);
  const mean = excursion / Math.max(0.1, move.to.seconds - move.from.seconds);
  const missing = Math.abs(pair.to.value - pair.from.value) - excursion;
  return edgeSpeed > 0.25 * mean && missing > 0.08 * excursion;
}
