import { HALF_WIDTH_ERRORS } from '../../core/motion/interval.js';
import type { Samples } from '../../core/motion/samples.js';
import { between, type SmoothCurve } from '../../core/motion/smoothing.js';
import { endSeconds, type SpeedSpline, speedAt, valueAt } from '../../core/motion/speedSpline.js';
import { type MoveBounds, moveBounds, type RisingCurve, STILLNESS_SHARE } from './boundaries.js';
import type { Instant } from './bout.js';
import { type FittedMove, fitMove, type MoveFit, moveValueAt, type Within } from './fitMove.js';
import { leftOverOf, shareOfLeftOver } from './leftOver.js';
import type { Family } from './moveFamilies.js';
import { type Estimate, weighedBounds } from './shapeBounds.js';
import { type WanderingNoise, wanderOf } from './wanderingNoise.js';

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
export interface TurnWindow {
  readonly fromSeconds: number;
  readonly toSeconds: number;
  readonly rising: boolean;
}

/** A move's turns, with the stillness beyond them that may be looked at too. */
export interface MoveWindow extends TurnWindow {
  readonly restFromSeconds: number;
  readonly restToSeconds: number;
}

const GRID_SECONDS = 0.005;
const SHORTEST_STALL_SECONDS = 0.25;
/** Fewer samples than this say nothing about a shape. */
const LEAST_SAMPLES = 6;

/** A move with the shapes that may explain it, likeliest first; none where there are too few samples. */
export interface MoveLook {
  readonly curve: SmoothCurve;
  readonly window: MoveWindow;
  readonly rough: MoveBounds;
  readonly samples: Samples;
  readonly weights: Float64Array;
  readonly fits: readonly MoveFit[];
}

/** Fits shapes with stillness before and after to a move's samples. */
export function lookAtMove(
  curve: SmoothCurve,
  window: MoveWindow,
  noise: WanderingNoise,
  families: readonly Family[],
): MoveLook {
  const rough = coarseBounds(curve, window);
  const roughDuration = Math.max(0.1, rough.endSeconds - rough.startSeconds);
  const margin = Math.min(1.5, Math.max(0.5, 0.5 * roughDuration));
  const fromSeconds = Math.max(window.restFromSeconds, rough.startSeconds - margin);
  const toSeconds = Math.min(window.restToSeconds, rough.endSeconds + margin);
  const samples = between(curve.samples, fromSeconds, toSeconds);
  const weights = sampleWeights(curve, samples);
  const fits =
    samples.seconds.length < LEAST_SAMPLES
      ? []
      : fitMove(samples, weights, noise, rough, turningPoints(curve, window), families);
  return { curve, window, rough, samples, weights, fits };
}

/**
 * Measures one move: what the likeliest shape leaves over is smoothed and, where it is more than noise, added back,
 * so that a hitch, a stall or an unusual shape is kept; the bounds follow from the shapes, or from the speed of that
 * sum. A move cut by the film may lie partly beyond the samples; its ± is at most the length that was seen.
 *
 * @param bentByView whether the view bends the angle by an unknown amount
 */
export function refineMove(look: MoveLook, bentByView: boolean): RefinedMove {
  const { window, rough, samples, fits } = look;
  const best = fits[0];
  if (best === undefined) return coarseMove(look.curve, window);
  const sign = window.rising ? 1 : -1;
  const fit = best.move;
  const leftOver = leftOverOf(samples, look.weights, fit, rough);
  const share = shareOfLeftOver(leftOver, fit, rough, wanderOf(look.curve.noise));
  // Where the shape clearly missed, a hitch or a stall say, the smoothed curve alone is the better witness.
  if (share >= 1) return coarseMove(look.curve, window);
  const summed = sumGrid(samples, sign, fit, leftOver, share);
  const { start, end, duration } = weighedBounds(fits, sign);
  const bounds = share > 0 ? moveBounds(summed) : { startSeconds: start.value, endSeconds: end.value };
  const longest = Math.max(0.1, rough.endSeconds - rough.startSeconds);
  const halfWidth = (estimate: Estimate) =>
    Math.min(
      longest,
      HALF_WIDTH_ERRORS * BEYOND_FAMILIES * (bentByView ? BENT_BY_VIEW : 1) * estimate.standardError,
    );
  const fromDegrees = sign * summed.values[0]!;
  const toDegrees = sign * summed.values[summed.values.length - 1]!;
  return {
    rising: window.rising,
    start: { seconds: bounds.startSeconds, uncertaintySeconds: halfWidth(start) },
    end: { seconds: bounds.endSeconds, uncertaintySeconds: halfWidth(end) },
    setsOutAtSeconds: fit.startSeconds,
    restsAtSeconds: fit.endSeconds,
    uncertaintySeconds: halfWidth(duration),
    fromDegrees,
    toDegrees,
    middleSeconds: timeOf(summed, (sign * (fromDegrees + toDegrees)) / 2),
    levelUncertaintyDegrees:
      HALF_WIDTH_ERRORS * Math.hypot(fit.levelErrors.from, fit.levelErrors.to) * Math.SQRT1_2,
    stalls: stallsWithin(summed, bounds, sign),
  };
}

/** Lifters move in more ways than the families hold: on rendered films errors are this much larger than the shapes say. */
const BEYOND_FAMILIES = 1.2;

/** A view too oblique for degrees bends the speed curve too: on real film so seen, errors are this much larger. */
const BENT_BY_VIEW = 1.8;

/** What a move cannot reach beyond; where the curve itself ends, the move may go on unseen. */
function turningPoints({ spline }: SmoothCurve, window: MoveWindow): Within {
  const atStart = window.restFromSeconds <= spline.startSeconds + 0.1;
  const atEnd = window.restToSeconds >= endSeconds(spline) - 0.1;
  return {
    fromSeconds: atStart ? Number.NEGATIVE_INFINITY : window.restFromSeconds,
    toSeconds: atEnd ? Number.POSITIVE_INFINITY : window.restToSeconds,
  };
}

/** Begin and end of a move by the smoothed curve alone. */
export function coarseBounds(curve: SmoothCurve, window: TurnWindow): MoveBounds {
  return moveBounds(curveGrid(curve, window));
}

/** A move measured from the smoothed curve alone, with the wider uncertainty that comes of it. */
export function coarseMove(curve: SmoothCurve, window: TurnWindow): RefinedMove {
  const rough = coarseBounds(curve, window);
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
    levelUncertaintyDegrees: HALF_WIDTH_ERRORS * curve.noise,
    stalls: stallsWithin(values, rough, sign),
  };
}

function curveGrid(curve: SmoothCurve, window: TurnWindow): RisingCurve {
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

function sumGrid(
  samples: Samples,
  sign: number,
  fit: FittedMove,
  rest: SpeedSpline,
  share: number,
): RisingCurve {
  const nudge = GRID_SECONDS / 2;
  return grid(
    samples.seconds[0]!,
    samples.seconds[samples.seconds.length - 1]!,
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
