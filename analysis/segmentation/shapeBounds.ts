import { Matrix } from 'ml-matrix';
import { type MoveBounds, moveBounds } from './boundaries.js';
import type { FittedMove, MoveFit } from './fitMove.js';

export interface Estimate {
  readonly value: number;
  readonly standardError: number;
}

export interface BoundsEstimate {
  readonly start: Estimate;
  readonly end: Estimate;
  readonly duration: Estimate;
}

/**
 * Start, end and duration of a move averaged over the families of shapes, each weighted by how likely it is, with
 * standard errors that hold both a shape's own uncertainty (delta method) and the families' disagreement.
 *
 * @param sign 1 for a rising move, -1 for a falling one
 */
export function weighedBounds(fits: readonly MoveFit[], sign: number): BoundsEstimate {
  const best = Math.max(...fits.map(({ logEvidence }) => logEvidence));
  const weights = fits.map(({ logEvidence }) => Math.exp(logEvidence - best));
  const each = fits.map((fit) => boundsOfFit(fit, sign));
  return {
    start: averaged(
      each.map(({ start }) => start),
      weights,
    ),
    end: averaged(
      each.map(({ end }) => end),
      weights,
    ),
    duration: averaged(
      each.map(({ duration }) => duration),
      weights,
    ),
  };
}

function averaged(estimates: readonly Estimate[], weights: readonly number[]): Estimate {
  const total = weights.reduce((sum, weight) => sum + weight, 0);
  const mean = (of: (estimate: Estimate) => number) =>
    estimates.reduce((sum, estimate, i) => sum + weights[i]! * of(estimate), 0) / total;
  const value = mean((estimate) => estimate.value);
  const variance = mean((estimate) => estimate.standardError ** 2 + (estimate.value - value) ** 2);
  return { value, standardError: Math.sqrt(variance) };
}

function boundsOfFit(fit: MoveFit, sign: number): BoundsEstimate {
  const at = boundsOfShape(fit.move, sign);
  const slopes = fit.nudged.map(({ move, nudge }) => {
    const moved = boundsOfShape(move, sign);
    return {
      start: (moved.startSeconds - at.startSeconds) / nudge,
      end: (moved.endSeconds - at.endSeconds) / nudge,
    };
  });
  const errorOf = (gradient: readonly number[]) => {
    const row = Matrix.rowVector([...gradient]);
    return Math.sqrt(Math.max(0, row.mmul(fit.covariance).mmul(row.transpose()).get(0, 0)));
  };
  return {
    start: { value: at.startSeconds, standardError: errorOf(slopes.map(({ start }) => start)) },
    end: { value: at.endSeconds, standardError: errorOf(slopes.map(({ end }) => end)) },
    duration: {
      value: at.endSeconds - at.startSeconds,
      standardError: errorOf(slopes.map(({ start, end }) => end - start)),
    },
  };
}

/** Where a fitted move begins and ends by the definition of stillness. */
export function boundsOfShape(move: FittedMove, sign: number): MoveBounds {
  const { startSeconds, endSeconds, table } = move;
  const seconds = endSeconds - startSeconds;
  const size = sign * (move.toLevel - move.fromLevel);
  return moveBounds({
    startSeconds,
    stepSeconds: seconds / (table.speeds.length - 1),
    values: table.travelled.map((share) => share * size),
    speeds: table.speeds.map((speed) => (speed * size) / seconds),
  });
}
