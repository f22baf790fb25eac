import type { Samples } from '../../core/motion/samples.js';
import { fitSystem, type SpeedSpline, solveFit, valueAt } from '../../core/motion/speedSpline.js';
import type { MoveBounds } from './boundaries.js';
import { type FittedMove, shownValueAt } from './fitMove.js';
import type { WanderingNoise } from './wanderingNoise.js';

/** Smoothing of what a shape left over, seconds for a move of one second; it grows less than the move does. */
const SMOOTHING_SECONDS = 0.12;
const LEAST_SMOOTHING_SECONDS = 0.06;

/** What a fitted shape leaves unexplained, smoothed. */
export function leftOverOf(
  samples: Samples,
  weights: Float64Array,
  fit: FittedMove,
  rough: MoveBounds,
): SpeedSpline {
  const values = samples.values.map((value, i) => value - shownValueAt(fit, samples.seconds[i]!));
  const startSeconds = samples.seconds[0]!;
  const stepSeconds = 1 / 30;
  const length = samples.seconds[samples.seconds.length - 1]! - startSeconds;
  const cells = Math.max(2, Math.ceil(length / stepSeconds));
  const duration = Math.max(0.1, rough.endSeconds - rough.startSeconds);
  const smoothing = Math.max(LEAST_SMOOTHING_SECONDS, SMOOTHING_SECONDS * duration ** 0.7);
  const smoothingSeconds = new Float64Array(cells + 1).fill(smoothing);
  const request = { startSeconds, stepSeconds, cells, smoothingSeconds, directions: null };
  return solveFit(fitSystem({ ...samples, values }, weights, request));
}

/** Root mean square of what a shape leaves over, as share of the move, that shapes commonly leave … */
const COMMON_SHARE = 0.012;
/** … or as multiple of the wandering part of the noise, whichever is larger. */
const COMMON_DEVIATIONS = 0.7;
/** From here on, as multiple of what is common, all of it is the lifter's. */
const CERTAIN = 1.8;

/**
 * How much of what a shape left over to add back, 0 to 1: nothing where it is as small as noise and the usual
 * differences between shapes leave it, all of it where the move really had a hitch or an odd shape.
 */
export function shareOfLeftOver(
  leftOver: SpeedSpline,
  fit: FittedMove,
  rough: MoveBounds,
  noise: WanderingNoise,
): number {
  let squares = 0;
  const points = 40;
  for (let i = 0; i <= points; i++) {
    const seconds = rough.startSeconds + ((rough.endSeconds - rough.startSeconds) * i) / points;
    squares += valueAt(leftOver, seconds) ** 2;
  }
  const degrees = Math.sqrt(squares / (points + 1));
  const excursion = Math.abs(fit.toLevel - fit.fromLevel);
  const common = Math.max(COMMON_SHARE * excursion, COMMON_DEVIATIONS * noise.deviation);
  return Math.min(1, Math.max(0, (degrees / common - 1) / (CERTAIN - 1)));
}
