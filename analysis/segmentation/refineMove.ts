import { inverse, Matrix } from 'ml-matrix';
import type { Samples } from '../../core/motion/samples.js';
import { between, type SmoothCurve } from '../../core/motion/smoothing.js';
import { fitSystem, type SpeedSpline, solveFit, speedAt, valueAt } from '../../core/motion/speedSpline.js';
import { type MoveBounds, moveBounds, type RisingCurve, STILLNESS_SHARE } from './boundaries.js';
import type { Instant } from './bout.js';
import { type FittedMove, fitMove, moveValueAt } from './fitMove.js';

/** One move, measured as well as the samples allow. */
export interface RefinedMove {
  readonly rising: boolean;
  readonly start: Instant;
  readonly end: Instant;
  /** When the fitted shape's speed leaves and reaches zero, a little outside `start` and `end`. */
  readonly setsOutAtSeconds: number;
  readonly restsAtSeconds: number;
  /** Half width of the 95 % interval of `end - start`. */
  readonly uncertaintySeconds: number;
  /** The angle at rest before and after the move. */
  readonly fromDegrees: number;
  readonly toDegrees: number;
  /** When the angle passed the middle between the two. */
  readonly middleSeconds: number;
  /** Half width of the 95 % interval of the levels before and after the move, from noise alone. */
  readonly levelUncertaintyDegrees: number;
  readonly stalls: readonly {
    readonly startSeconds: number;
    readonly endSeconds: number;
    readonly degrees: number;
  }[];
}

/** Where a coarser look put a move: the turn before it and the turn after it. */
export interface MoveWindow {
  readonly fromSeconds: number;
  readonly toSeconds: number;
  readonly rising: boolean;
}

const GRID_SECONDS = 0.005;
/** Root mean square of what a shape leaves over, as share of the move, up to which it is ignored … */
const LEFT_OVER_IGNORED = 0.012;
/** … and from which all of it is added back. */
const LEFT_OVER_ADDED = 0.022;
/** Smoothing of what the shape left over, seconds for a move of one second; it grows less than the move does. */
const WIDE = 0.12;
const SHORTEST_STALL_SECONDS = 0.25;

/**
 * Measures one move: a shape with stillness before and after is fitted to the samples themselves, what it leaves
 * over is smoothed and added back (so that a hitch, a stall or an unusual shape is kept), and the bounds follow
 * from the speed of that sum.
 */
export function refineMove(curve: SmoothCurve, window: MoveWindow): RefinedMove {
  const sign = window.rising ? 1 : -1;
  const rough = coarseBounds(curve, window);
  const roughDuration = Math.max(0.1, rough.endSeconds - rough.startSeconds);
  const margin = Math.min(1.5, Math.max(0.5, 0.5 * roughDuration));
  const fromSeconds = Math.max(window.fromSeconds, rough.startSeconds - margin);
  const toSeconds = Math.min(window.toSeconds, rough.endSeconds + margin);
  const samples = between(curve.samples, fromSeconds, toSeconds);
  if (samples.seconds.length < 6) return coarseMove(curve, window, rough);

  const weights = sampleWeights(curve, samples);
  const fit = fitMove(samples, weights, rough);
  const leftOver: Samples = {
    ...samples,
    values: samples.values.map((value, i) => value - moveValueAt(fit, samples.seconds[i]!)),
  };
  const inflation = correlationInflation(leftOver, weights);
  const rest = smoothLeftOver(leftOver, weights, fromSeconds, toSeconds, WIDE * roughDuration ** 0.7);
  const share = shareOfLeftOver(rest, fit, rough);
  // Where the shape clearly missed, a hitch or a stall say, the smoothed curve alone is the better witness.
  if (share >= 1) return coarseMove(curve, window, rough);
  const summed = sumGrid(fromSeconds, toSeconds, sign, fit, rest, share);
  const bounds = moveBounds(summed);
  const errors = boundErrors(samples, weights, fit, sign, inflation, roughDuration);
  const duration = Math.max(GRID_SECONDS, bounds.endSeconds - bounds.startSeconds);
  const slack = shapeSlack(duration, curve);
  const fromDegrees = sign * summed.values[0]!;
  const toDegrees = sign * summed.values[summed.values.length - 1]!;
  return {
    rising: window.rising,
    start: { seconds: bounds.startSeconds, uncertaintySeconds: Math.hypot(errors.start, slack) },
    end: { seconds: bounds.endSeconds, uncertaintySeconds: Math.hypot(errors.end, slack) },
    setsOutAtSeconds: fit.startSeconds,
    restsAtSeconds: fit.endSeconds,
    uncertaintySeconds: Math.hypot(errors.duration, slack * Math.SQRT2),
    fromDegrees,
    toDegrees,
    middleSeconds: timeOf(summed, (sign * (fromDegrees + toDegrees)) / 2),
    levelUncertaintyDegrees: levelUncertainty(curve, samples, inflation),
    stalls: stallsWithin(summed, bounds, sign),
  };
}

/** Begin and end of a move by the smoothed curve alone. */
export function coarseBounds(curve: SmoothCurve, window: MoveWindow): MoveBounds {
  return moveBounds(curveGrid(curve, window));
}

/** 95 % half width that shape differences alone leave, from the evaluation on rendered sets. */
function shapeSlack(durationSeconds: number, curve: SmoothCurve): number {
  return 0.05 + 0.03 * durationSeconds + 0.3 * curve.spline.stepSeconds;
}

/** A move measured from the smoothed curve alone, with the wider uncertainty that comes of it. */
function coarseMove(curve: SmoothCurve, window: MoveWindow, rough: MoveBounds): RefinedMove {
  const sign = window.rising ? 1 : -1;
  const values = curveGrid(curve, window);
  const uncertain = 2 * curve.spline.stepSeconds + 0.04 * (rough.endSeconds - rough.startSeconds);
  const fromDegrees = valueAt(curve.spline, window.fromSeconds);
  const toDegrees = valueAt(curve.spline, window.toSeconds);
  return {
    rising: window.rising,
    start: { seconds: rough.startSeconds, uncertaintySeconds: uncertain },
    end: { seconds: rough.endSeconds, uncertaintySeconds: uncertain },
    setsOutAtSeconds: rough.startSeconds,
    restsAtSeconds: rough.endSeconds,
    uncertaintySeconds: uncertain * Math.SQRT2,
    fromDegrees,
    toDegrees,
    middleSeconds: timeOf(values, (sign * (fromDegrees + toDegrees)) / 2),
    levelUncertaintyDegrees: 1.96 * curve.noise,
    stalls: stallsWithin(values, rough, sign),
  };
}

function curveGrid(curve: SmoothCurve, window: MoveWindow): RisingCurve {
  const sign = window.rising ? 1 : -1;
  const { spline } = curve;
  return grid(
    window.fromSeconds,
    window.toSeconds,
    (seconds) => sign * valueAt(spline, seconds),
    (seconds) => sign * speedAt(spline, seconds),
  );
}

function sampleWeights(curve: SmoothCurve, samples: Samples): Float64Array {
  const offset = curve.samples.seconds.indexOf(samples.seconds[0]!);
  const noise = Math.max(0.3, curve.noise);
  return samples.seconds.map((_, i) => curve.trust[offset + i]! / (noise * noise));
}

function grid(
  fromSeconds: number,
  toSeconds: number,
  value: (seconds: number) => number,
  speed: (seconds: number) => number,
): RisingCurve {
  const count = Math.max(2, Math.round((toSeconds - fromSeconds) / GRID_SECONDS) + 1);
  const values = new Float64Array(count);
  const speeds = new Float64Array(count);
  for (let i = 0; i < count; i++) {
    const seconds = fromSeconds + i * GRID_SECONDS;
    values[i] = value(seconds);
    speeds[i] = speed(seconds);
  }
  return { startSeconds: fromSeconds, stepSeconds: GRID_SECONDS, values, speeds };
}

function smoothLeftOver(
  leftOver: Samples,
  weights: Float64Array,
  fromSeconds: number,
  toSeconds: number,
  smoothing: number,
) {
  const stepSeconds = 1 / 30;
  const cells = Math.max(2, Math.ceil((toSeconds - fromSeconds) / stepSeconds));
  const smoothingSeconds = new Float64Array(cells + 1).fill(Math.max(0.06, smoothing));
  const request = { startSeconds: fromSeconds, stepSeconds, cells, smoothingSeconds, directions: null };
  return solveFit(fitSystem(leftOver, weights, request));
}

/**
 * How much of what the shape left over to add back, 0 to 1: nothing where it is as small as noise and the
 * usual differences between shapes leave it, all of it where the move really had a hitch or an odd shape.
 */
function shareOfLeftOver(
  rest: SpeedSpline,
  fit: FittedMove,
  rough: { readonly startSeconds: number; readonly endSeconds: number },
): number {
  let squares = 0;
  const points = 40;
  for (let i = 0; i <= points; i++) {
    const seconds = rough.startSeconds + ((rough.endSeconds - rough.startSeconds) * i) / points;
    squares += valueAt(rest, seconds) ** 2;
  }
  const relative = Math.sqrt(squares / (points + 1)) / Math.max(1e-6, Math.abs(fit.toLevel - fit.fromLevel));
  return Math.min(1, Math.max(0, (relative - LEFT_OVER_IGNORED) / (LEFT_OVER_ADDED - LEFT_OVER_IGNORED)));
}

function sumGrid(
  fromSeconds: number,
  toSeconds: number,
  sign: number,
  fit: FittedMove,
  rest: SpeedSpline,
  share: number,
): RisingCurve {
  const nudge = GRID_SECONDS / 2;
  return grid(
    fromSeconds,
    toSeconds,
    (seconds) => sign * (moveValueAt(fit, seconds) + share * valueAt(rest, seconds)),
    (seconds) =>
      sign *
      ((moveValueAt(fit, seconds + nudge) - moveValueAt(fit, seconds - nudge)) / GRID_SECONDS +
        share * speedAt(rest, seconds)),
  );
}

function gridValue(curve: RisingCurve, seconds: number): number {
  const position = (seconds - curve.startSeconds) / curve.stepSeconds;
  const index = Math.min(curve.values.length - 1, Math.max(0, Math.round(position)));
  return curve.values[index]!;
}

function timeOf(curve: RisingCurve, value: number): number {
  let index = 0;
  while (index < curve.values.length - 1 && curve.values[index]! < value) index++;
  return curve.startSeconds + index * curve.stepSeconds;
}

/**
 * How much neighbouring residuals repeat each other: the factor by which the variance of a mean grows,
 * 1 + 2 Σ of the autocorrelations up to the first that is not positive.
 */
function correlationInflation(leftOver: Samples, weights: Float64Array): number {
  const values = leftOver.values.map((value, i) => value * Math.sqrt(weights[i]!));
  let variance = 0;
  for (const value of values) variance += value * value;
  if (variance === 0) return 1;
  let factor = 1;
  for (let lag = 1; lag < values.length / 3; lag++) {
    let sum = 0;
    for (let i = lag; i < values.length; i++) sum += values[i]! * values[i - lag]!;
    const correlation = sum / variance;
    if (correlation <= 0.05) break;
    factor += 2 * correlation;
  }
  const misfit = variance / values.length;
  return Math.min(12, factor) * Math.max(1, misfit);
}

/** 95 % half widths of start, end and duration from noise: the fit's times by the delta method. */
function boundErrors(
  samples: Samples,
  weights: Float64Array,
  fit: FittedMove,
  sign: number,
  inflation: number,
  longest: number,
): { readonly start: number; readonly end: number; readonly duration: number } {
  // Information about shifting the early and the late half of the move, with the two levels as nuisance.
  const duration = fit.endSeconds - fit.startSeconds;
  const nudge = 0.01 * duration;
  const earlier: FittedMove = { ...fit, startSeconds: fit.startSeconds - nudge };
  const later: FittedMove = { ...fit, endSeconds: fit.endSeconds + nudge };
  const rows: number[][] = [];
  for (let i = 0; i < samples.seconds.length; i++) {
    const seconds = samples.seconds[i]!;
    const root = Math.sqrt(weights[i]!);
    const base = moveValueAt(fit, seconds);
    const share = (base - fit.fromLevel) / (fit.toLevel - fit.fromLevel || sign);
    rows.push([
      (root * (moveValueAt(earlier, seconds) - base)) / -nudge,
      (root * (moveValueAt(later, seconds) - base)) / nudge,
      root * (1 - share),
      root * share,
    ]);
  }
  const design = new Matrix(rows);
  const normal = design.transpose().mmul(design).add(Matrix.eye(4).mul(1e-9));
  const covariance = inverse(normal, true);
  const scale = 1.96 * Math.sqrt(inflation);
  // A move cut by the film may lie partly beyond the samples; its bounds cannot be further off than it is long.
  const reach = (variance: number) => Math.min(longest, scale * Math.sqrt(Math.max(0, variance)));
  const start = covariance.get(0, 0);
  const end = covariance.get(1, 1);
  return { start: reach(start), end: reach(end), duration: reach(start + end - 2 * covariance.get(0, 1)) };
}

function levelUncertainty(curve: SmoothCurve, samples: Samples, inflation: number): number {
  const near = Math.max(3, Math.min(10, samples.seconds.length / 4));
  return 1.96 * curve.noise * Math.sqrt(Math.min(inflation, near) / near);
}

function stallsWithin(
  curve: RisingCurve,
  bounds: { startSeconds: number; endSeconds: number },
  sign: number,
) {
  const stalls: { startSeconds: number; endSeconds: number; degrees: number }[] = [];
  const first = Math.ceil((bounds.startSeconds - curve.startSeconds) / curve.stepSeconds);
  const last = Math.floor((bounds.endSeconds - curve.startSeconds) / curve.stepSeconds);
  const mean =
    (gridValue(curve, bounds.endSeconds) - gridValue(curve, bounds.startSeconds)) /
    Math.max(curve.stepSeconds, bounds.endSeconds - bounds.startSeconds);
  let begin = -1;
  for (let i = first; i <= last; i++) {
    const still = curve.speeds[i]! <= STILLNESS_SHARE * mean;
    if (still && begin < 0) begin = i;
    if (!still && begin >= 0) {
      const startSeconds = curve.startSeconds + begin * curve.stepSeconds;
      const endSeconds = curve.startSeconds + i * curve.stepSeconds;
      if (endSeconds - startSeconds >= SHORTEST_STALL_SECONDS) {
        stalls.push({ startSeconds, endSeconds, degrees: sign * curve.values[begin]! });
      }
      begin = -1;
    }
  }
  return stalls;
}
