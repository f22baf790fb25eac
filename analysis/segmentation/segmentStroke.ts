import type { Samples } from '../../core/motion/samples.js';
import { type SmoothCurve, smoothSamples } from '../../core/motion/smoothing.js';
import type { Side } from '../../core/pose/keypoints.js';
import type { Exercise, RangeEnd } from '../exercises/exercise.js';
import type { MoveBounds } from './boundaries.js';
import type { MeasuredBout } from './bout.js';
import { type CandidateRep, type Move, movesBetween, pairMoves } from './candidateReps.js';
import { alternatingExtremes } from './extremes.js';
import { joinAcrossGaps } from './joinAcrossGaps.js';
import { measureReps } from './measureRep.js';
import { withoutOvershoot } from './overshoot.js';
import type { Companion, Footing, Held, Posture } from './posture.js';
import { coarseBounds } from './refineMove.js';
import { findRuns, LEAST_REP_SHARE, type Run, referenceExcursion, usualExcursion } from './runs.js';

/** Everything segmentation needs of one limb (or of the mean of two) over a stretch of film. */
export interface Stroke {
  readonly side: Side | 'both';
  readonly measuredSides: readonly Side[];
  /** The driving angle, degrees. */
  readonly driving: Samples;
  readonly posture: Posture;
  readonly companions: readonly Companion[];
  readonly held: Held | null;
  readonly footing: Footing | null;
  /**
   * Half width of the 95 % interval of the error that all reps' ranges share, degrees; null where the view gives
   * times but no true degrees.
   */
  readonly sharedUncertaintyDegrees: number | null;
  /** Whether the view gives the driving angle no true degrees, so that it is bent by an unknown amount and its times are less sure. */
  readonly bentByView: boolean;
}

export interface SegmentationRules {
  readonly exercise: Exercise;
  /** First and last instant of the film (or of the part asked for), seconds. */
  readonly film: { readonly startSeconds: number; readonly endSeconds: number };
  /** The longest planned hold in the start position, seconds; 0 without a plan. */
  readonly plannedStartHoldSeconds: number;
}

export interface SegmentedBout extends MeasuredBout {
  /** The smoothed driving angle, one curve a stretch without a long gap. */
  readonly curves: readonly SmoothCurve[];
}

/** Moves smaller than this are not told from idling, degrees. */
const LEAST_MOVE_DEGREES = 8;
/** Moves within this many standard deviations of the noise are noise. */
const LEAST_MOVE_DEVIATIONS = 4;
/** A pause in the start position up to this is a hold (design, definitions). */
const LONGEST_HOLD_SECONDS = 6;
/** How many whole reps the exercise's usual start position is worth when the film speaks for the other one. */
const USUAL_START_BONUS = 0.5;

/**
 * Finds the bouts of one stroke with their reps and phases, in order of time. Never invents a rep.
 *
 * @param detail a `coarse` look finds the same reps, with times from the smoothed curve alone
 */
export function segmentStroke(
  stroke: Stroke,
  rules: SegmentationRules,
  detail: 'coarse' | 'close' = 'close',
): readonly SegmentedBout[] {
  const bouts = smoothSamples(stroke.driving).flatMap((curve): readonly SegmentedBout[] => {
    const { start, runs } = chooseStart(curve, stroke, rules);
    return runs.map((run) => ({
      side: stroke.side,
      measuredSides: stroke.measuredSides,
      reps: measureReps(run, {
        curve,
        side: stroke.side,
        start,
        film: rules.film,
        closely: detail === 'close',
        sharedUncertaintyDegrees: stroke.sharedUncertaintyDegrees,
        bentByView: stroke.bentByView,
      }),
      curves: [curve],
    }));
  });
  return joinAcrossGaps(bouts, longestHold(rules));
}

/** The longest pause in the start position that is a hold; beyond it is a rest. */
export function longestHold(rules: SegmentationRules): number {
  return Math.max(LONGEST_HOLD_SECONDS, 2 * rules.plannedStartHoldSeconds);
}

/** The film decides where reps start; the exercise's default where both fit about equally. */
function chooseStart(
  curve: SmoothCurve,
  stroke: Stroke,
  rules: SegmentationRules,
): { readonly start: RangeEnd; readonly runs: readonly Run[] } {
  const usual = rules.exercise.defaultStart;
  const other: RangeEnd = usual === 'stretched' ? 'contracted' : 'stretched';
  const byUsual = runsFrom(usual, curve, stroke, rules);
  const byOther = runsFrom(other, curve, stroke, rules);
  const wins = wholeReps(byOther) > wholeReps(byUsual) + USUAL_START_BONUS;
  return wins ? { start: other, runs: byOther } : { start: usual, runs: byUsual };
}

function wholeReps(runs: readonly Run[]): number {
  return runs.reduce((sum, run) => sum + run.filter((rep) => rep.cut === null).length, 0);
}

function runsFrom(
  start: RangeEnd,
  curve: SmoothCurve,
  stroke: Stroke,
  rules: SegmentationRules,
): readonly Run[] {
  const { exercise } = rules;
  const least = Math.max(LEAST_MOVE_DEGREES, LEAST_MOVE_DEVIATIONS * curve.noise);
  const known = new Map<Move, MoveBounds>();
  const boundsOf = (move: Move) => {
    const bounds = known.get(move) ?? coarseBounds(curve, windowOf(move));
    known.set(move, bounds);
    return bounds;
  };
  const first = look(Math.max(least, 0.2 * usualExcursion(exercise)));
  if (first.length === 0) return [];
  const main = first.reduce((best, run) => (run.length > best.length ? run : best));
  return look(Math.max(least, 0.95 * LEAST_REP_SHARE * referenceExcursion(main)));

  function look(threshold: number): readonly Run[] {
    const moves = movesBetween(alternatingExtremes(curve.spline, threshold), exercise);
    const movingSpan = (rep: CandidateRep) => ({
      fromSeconds: boundsOf((rep.away ?? rep.back)!).startSeconds,
      toSeconds: boundsOf((rep.back ?? rep.away)!).endSeconds,
    });
    return findRuns(
      pairMoves(moves, start, curve, rules.film).map((rep) => withoutOvershoot(rep, curve)),
      {
        exercise,
        start,
        posture: stroke.posture,
        companions: stroke.companions.map((companion) => towards(start, companion)),
        held: stroke.held,
        footing: stroke.footing,
        longestHoldSeconds: longestHold(rules),
      },
      movingSpan,
    );
  }
}

/** Companions are stated from the contracted to the stretched end; reps that start stretched see them reversed. */
function towards(start: RangeEnd, companion: Companion): Companion {
  return start === 'contracted' ? companion : { ...companion, leastChange: -companion.leastChange };
}

function windowOf(move: Move) {
  return {
    fromSeconds: move.from.seconds,
    toSeconds: move.to.seconds,
    rising: move.to.value > move.from.value,
  };
}
