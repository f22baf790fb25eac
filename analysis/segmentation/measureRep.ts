import { HALF_WIDTH_ERRORS } from '../../core/motion/interval.js';
import type { SmoothCurve } from '../../core/motion/smoothing.js';
import type { Side } from '../../core/pose/keypoints.js';
import type { RangeEnd } from '../exercises/exercise.js';
import type { Instant, MeasuredDegrees, MeasuredPhase, MeasuredRep, PhaseKind } from './bout.js';
import type { CandidateRep, Move } from './candidateReps.js';
import { habitsFor } from './habits.js';
import { FAMILIES } from './moveFamilies.js';
import {
  coarseBounds,
  coarseMove,
  lookAtMove,
  type MoveWindow,
  type RefinedMove,
  refineMove,
} from './refineMove.js';
import { wanderOf } from './wanderingNoise.js';
import { wanderSeen } from './wanderSeen.js';

/** Stillness shorter than this between two moves is a turn, split at the extreme angle (design, definitions). */
export const TURN_SECONDS = 0.15;
/** However unsure its length is, stillness of 0.2 s is a hold; where smooth moves follow each other it lasts 0.15 to 0.2 s. */
const MOST_DOUBT_SECONDS = 0.05;

interface Context {
  readonly curve: SmoothCurve;
  readonly side: Side | 'both';
  readonly start: RangeEnd;
  readonly film: { readonly startSeconds: number; readonly endSeconds: number };
  /** Whether shapes are fitted to the moves; a coarse look takes them from the smoothed curve. */
  readonly closely: boolean;
  /** Error that all reps share, degrees; null where the view gives times but no true degrees. */
  readonly sharedUncertaintyDegrees: number | null;
  readonly bentByView: boolean;
}

interface MeasuredMove {
  readonly kind: Move['kind'];
  readonly move: RefinedMove;
  start: Instant;
  end: Instant;
}

/** Measures the reps of one run, in order: refined moves, turns settled between neighbours, holds in between. */
export function measureReps(run: readonly CandidateRep[], context: Context): readonly MeasuredRep[] {
  const plain = run.flatMap((rep) => [rep.away, rep.back]).filter((move) => move !== null);
  const windows = withRests(plain, context.curve);
  const refined = context.closely ? closeMoves(windows, context) : coarseMoves(windows, context.curve);
  const inOrder = plain.map((move, i): MeasuredMove => {
    const measured = refined[i]!;
    return { kind: move.kind, move: measured, start: measured.start, end: measured.end };
  });
  const moves = new Map(plain.map((move, i) => [move, inOrder[i]!]));
  for (let i = 1; i < inOrder.length; i++) settleTurn(inOrder[i - 1]!, inOrder[i]!);
  return run.map((rep, i) => {
    const away = rep.away === null ? null : moves.get(rep.away)!;
    const back = rep.back === null ? null : moves.get(rep.back)!;
    const following = run[i + 1]?.away;
    const next = following === null || following === undefined ? null : moves.get(following)!;
    return measuredRep(rep, away, back, next, context);
  });
}

function coarseMoves(windows: readonly MoveWindow[], curve: SmoothCurve): readonly RefinedMove[] {
  return windows.map((window) => coarseMove(curve, window));
}

/** Every move by itself first, then once more with what all of them say about the lifter and the noise. */
function closeMoves(windows: readonly MoveWindow[], context: Context): readonly RefinedMove[] {
  const { curve, bentByView } = context;
  const usual = wanderOf(curve.noise);
  const looks = windows.map((window) => lookAtMove(curve, window, usual, FAMILIES));
  const noise = wanderSeen(looks, usual);
  return windows.map((window, i) =>
    refineMove(lookAtMove(curve, window, noise, habitsFor(looks, i)), bentByView),
  );
}

/** The moves' windows, each with the stillness that a coarser look sees between it and its neighbours. */
function withRests(moves: readonly Move[], curve: SmoothCurve): readonly MoveWindow[] {
  const windows = moves.map((move) => ({
    fromSeconds: move.from.seconds,
    toSeconds: move.to.seconds,
    rising: move.to.value > move.from.value,
  }));
  const bounds = windows.map((window) => coarseBounds(curve, window));
  return windows.map((window, i) => {
    const touches = (earlier: number, later: number) =>
      windows[earlier] !== undefined &&
      windows[later] !== undefined &&
      windows[earlier].toSeconds === windows[later].fromSeconds;
    return {
      ...window,
      restFromSeconds: touches(i - 1, i) ? bounds[i - 1]!.endSeconds : window.fromSeconds,
      restToSeconds: touches(i, i + 1) ? bounds[i + 1]!.startSeconds : window.toSeconds,
    };
  });
}

/**
 * Where two moves follow each other without stillness between, both end at the turn. Stillness no longer than a turn
 * by more than its own standard error is taken for one, since reps turn far more often than they pause for a moment.
 */
function settleTurn(earlier: MeasuredMove, later: MeasuredMove): void {
  const standardError =
    Math.hypot(earlier.end.uncertaintySeconds, later.start.uncertaintySeconds) / HALF_WIDTH_ERRORS;
  const longestTurn = TURN_SECONDS + Math.min(standardError, MOST_DOUBT_SECONDS);
  if (later.start.seconds - earlier.end.seconds >= longestTurn) return;
  const turn: Instant = {
    seconds: turnSeconds(earlier.move, later.move),
    uncertaintySeconds: Math.min(earlier.end.uncertaintySeconds, later.start.uncertaintySeconds),
  };
  earlier.end = turn;
  later.start = turn;
}

/**
 * The instant of the extreme angle: where the earlier move's shape comes to rest and the later one's sets out, the
 * quicker move having the sharper say; never outside what the two moves' bounds leave.
 */
function turnSeconds(earlier: RefinedMove, later: RefinedMove): number {
  const before = (earlier.end.seconds - earlier.start.seconds) ** 2;
  const after = (later.end.seconds - later.start.seconds) ** 2;
  const rest =
    (earlier.restsAtSeconds * after + later.setsOutAtSeconds * before) / Math.max(1e-9, before + after);
  const low = Math.min(earlier.end.seconds, later.start.seconds);
  const high = Math.max(earlier.end.seconds, later.start.seconds);
  return Math.min(high, Math.max(low, rest));
}

function measuredRep(
  rep: CandidateRep,
  away: MeasuredMove | null,
  back: MeasuredMove | null,
  next: MeasuredMove | null,
  context: Context,
): MeasuredRep {
  const farEnd: RangeEnd = context.start === 'stretched' ? 'contracted' : 'stretched';
  const phases: MeasuredPhase[] = [];
  if (away !== null) phases.push(movePhase(away));
  if (away !== null && back !== null) phases.push(holdPhase(farEnd, away.end, back.start));
  else if (away === null && back !== null && back.start.seconds - context.film.startSeconds >= TURN_SECONDS) {
    phases.push(holdPhase(farEnd, exactly(context.film.startSeconds), back.start));
  } else if (away !== null && context.film.endSeconds - away.end.seconds >= TURN_SECONDS) {
    phases.push(holdPhase(farEnd, away.end, exactly(context.film.endSeconds)));
  }
  if (back !== null) {
    phases.push(movePhase(back));
    phases.push(holdPhase(context.start, back.end, next === null ? back.end : next.start));
  }
  const ends = { near: [] as MeasuredDegrees[], far: [] as MeasuredDegrees[] };
  if (away !== null) {
    ends.near.push(level(away.move.fromDegrees, away.move));
    ends.far.push(level(away.move.toDegrees, away.move));
  }
  if (back !== null) {
    ends.far.push(level(back.move.fromDegrees, back.move));
    ends.near.push(level(back.move.toDegrees, back.move));
  }
  const shared = context.sharedUncertaintyDegrees ?? 0;
  const near = meanDegrees(ends.near, shared);
  const far = meanDegrees(ends.far, shared);
  const stretchedIsNear = context.start === 'stretched';
  const concentric = [away, back].find((move) => move?.kind === 'concentric') ?? null;
  const eccentric = [away, back].find((move) => move?.kind === 'eccentric') ?? null;
  const degrees = context.sharedUncertaintyDegrees !== null;
  return {
    side: context.side,
    complete: rep.cut === null,
    phases,
    stretched: degrees ? (stretchedIsNear ? near : far) : null,
    contracted: degrees ? (stretchedIsNear ? far : near) : null,
    eccentricExcursion: degrees && eccentric !== null ? excursion(eccentric.move, shared) : null,
    concentricExcursion: degrees && concentric !== null ? excursion(concentric.move, shared) : null,
  };
}

function exactly(seconds: number): Instant {
  return { seconds, uncertaintySeconds: 0 };
}

function movePhase(measured: MeasuredMove): MeasuredPhase {
  const { move, start, end } = measured;
  return {
    kind: measured.kind,
    start,
    end,
    uncertaintySeconds: move.uncertaintySeconds,
    fromDegrees: move.fromDegrees,
    toDegrees: move.toDegrees,
    middleSeconds: Math.min(end.seconds, Math.max(start.seconds, move.middleSeconds)),
    stalls: move.stalls,
  };
}

function holdPhase(end: RangeEnd, from: Instant, to: Instant): MeasuredPhase {
  const kind: PhaseKind = `${end}-hold`;
  const still = to.seconds - from.seconds >= TURN_SECONDS;
  return {
    kind,
    start: from,
    end: still ? to : from,
    uncertaintySeconds: Math.hypot(from.uncertaintySeconds, to.uncertaintySeconds),
    fromDegrees: 0,
    toDegrees: 0,
    middleSeconds: null,
    stalls: [],
  };
}

function level(degrees: number, move: RefinedMove): MeasuredDegrees {
  return { degrees, uncertaintyDegrees: move.levelUncertaintyDegrees };
}

function meanDegrees(levels: readonly MeasuredDegrees[], shared: number): MeasuredDegrees | null {
  if (levels.length === 0) return null;
  const sum = levels.reduce((total, one) => total + one.degrees, 0);
  const noise = Math.hypot(...levels.map((one) => one.uncertaintyDegrees)) / levels.length;
  return { degrees: sum / levels.length, uncertaintyDegrees: Math.hypot(noise, shared) };
}

function excursion(move: RefinedMove, shared: number): MeasuredDegrees {
  return {
    degrees: Math.abs(move.toDegrees - move.fromDegrees),
    uncertaintyDegrees: Math.hypot(move.levelUncertaintyDegrees * Math.SQRT2, shared),
  };
}
