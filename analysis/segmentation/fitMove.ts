import { CholeskyDecomposition, Matrix } from 'ml-matrix';
import type { Samples } from '../../core/motion/samples.js';
import { type MoveShape, type ShapeTable, tabulate, travelledAt } from './moveShape.js';

/** One move between two levels, as a curve: still before `startSeconds`, still after `endSeconds`. */
export interface FittedMove {
  readonly shape: MoveShape;
  readonly table: ShapeTable;
  readonly startSeconds: number;
  readonly endSeconds: number;
  readonly fromLevel: number;
  readonly toLevel: number;
  /** Sum of squared weighted residuals plus the prior's; smaller is better. */
  readonly cost: number;
}

export function moveValueAt(move: FittedMove, seconds: number): number {
  const share = (seconds - move.startSeconds) / (move.endSeconds - move.startSeconds);
  return move.fromLevel + (move.toLevel - move.fromLevel) * travelledAt(move.table, share);
}

interface Family {
  /** What a family must gain over a simpler one to be believed, on the scale of the cost. */
  readonly handicap: number;
  readonly starts: readonly (readonly number[])[];
  shape(parameters: readonly number[]): MoveShape;
  /** Residuals that keep parameters the data say nothing about near everyday values. */
  prior(parameters: readonly number[]): readonly number[];
}

const squash = (x: number): number => 1 / (1 + Math.exp(-x));

/** Everyday moves ramp over about a third of their time, give or take a factor of three. */
const RAMPED: Family = {
  handicap: 0,
  starts: [
    [-1.5, -1.5, 0],
    [0, 0, 0],
    [-1, 1.5, 0],
    [1.5, -1, 0],
  ],
  shape: ([startRamp = 0, endRamp = 0, lean = 0]) => ({
    family: 'ramped',
    startRamp: 0.02 + 0.96 * squash(startRamp),
    endRamp: 0.02 + 0.96 * squash(endRamp),
    lean: Math.tanh(lean),
  }),
  prior: ([startRamp = 0, endRamp = 0, lean = 0]) => [
    (startRamp + 0.8) / 1.5,
    (endRamp + 0.8) / 1.5,
    lean / 0.6,
  ],
};

const ARCHED: Family = {
  handicap: 0,
  starts: [
    [0, 0],
    [-1, 1],
    [1, -1],
  ],
  shape: ([start = 0, end = 0]) => ({
    family: 'arched',
    start: 0.3 + 3.2 * squash(start),
    end: 0.3 + 3.2 * squash(end),
  }),
  prior: ([start = 0, end = 0]) => [start / 1.5, end / 1.5],
};

const STEPPED: Family = {
  handicap: 6,
  starts: [
    [-1.5, -1.5, 0.8, 1.1],
    [-1.5, -1.5, -0.8, -1.1],
    [-1.5, -1.5, 0, 0.7],
  ],
  shape: ([startRamp = 0, endRamp = 0, stepAt = 0, ratio = 0]) => ({
    family: 'stepped',
    startRamp: 0.02 + 0.5 * squash(startRamp),
    endRamp: 0.02 + 0.5 * squash(endRamp),
    stepAt: 0.15 + 0.7 * squash(stepAt),
    ratio: Math.exp(Math.min(2.5, Math.max(-2.5, ratio))),
  }),
  prior: ([startRamp = 0, endRamp = 0, stepAt = 0, ratio = 0]) => [
    (startRamp + 0.8) / 1.5,
    (endRamp + 0.8) / 1.5,
    stepAt / 1.5,
    ratio / 1.2,
  ],
};

/** The coarser look is rarely off by more than this on the scale of logarithms; keeps hopeless fits finite. */
const LIKELY_RATIO = 0.7;
/** Longest run of Gauss–Newton steps from one start. */
const STEPS = 25;

/**
 * Fits a move with stillness before and after to samples that hold exactly one, by least squares
 * (Levenberg–Marquardt; the two levels follow linearly from the rest) from several starts and for every
 * family of shapes; the best one is returned.
 *
 * @param weights 1 / variance of each sample
 * @param roughly where the move lies, from a coarser look
 */
export function fitMove(
  samples: Samples,
  weights: Float64Array,
  roughly: { readonly startSeconds: number; readonly endSeconds: number },
): FittedMove {
  return [RAMPED, ARCHED, STEPPED]
    .map((family) => fitFamily(family, samples, weights, roughly))
    .reduce((best, fit) => (fit.cost < best.cost ? fit : best));
}

function fitFamily(
  family: Family,
  samples: Samples,
  weights: Float64Array,
  roughly: { readonly startSeconds: number; readonly endSeconds: number },
): FittedMove {
  const middle = (roughly.startSeconds + roughly.endSeconds) / 2;
  const duration = Math.max(0.1, roughly.endSeconds - roughly.startSeconds);
  let best: { readonly parameters: readonly number[]; readonly trial: Trial } | null = null;
  for (const start of family.starts) {
    const first = [middle, Math.log(duration * 1.08), ...start];
    const found = descend(family, samples, weights, first, duration);
    if (best === null || found.trial.cost < best.trial.cost) best = found;
  }
  const { parameters, trial } = best!;
  const [centre = 0, logDuration = 0, ...rest] = parameters;
  const half = Math.exp(logDuration) / 2;
  const shape = family.shape(rest);
  return {
    shape,
    table: tabulate(shape),
    startSeconds: centre - half,
    endSeconds: centre + half,
    fromLevel: trial.fromLevel,
    toLevel: trial.fromLevel + trial.excursion,
    cost: trial.cost + family.handicap,
  };
}

interface Trial {
  readonly residuals: Float64Array;
  readonly cost: number;
  readonly fromLevel: number;
  readonly excursion: number;
}

/** Weighted residuals for given times and shape, with the best two levels. */
function evaluate(
  family: Family,
  samples: Samples,
  weights: Float64Array,
  parameters: readonly number[],
  usualDuration: number,
): Trial {
  const [centre = 0, logDuration = 0, ...rest] = parameters;
  const duration = Math.exp(logDuration);
  const start = centre - duration / 2;
  const table = tabulate(family.shape(rest));
  const count = samples.seconds.length;
  const covered = new Float64Array(count);
  let sum = 0;
  let sumCovered = 0;
  let sumValue = 0;
  let sumCoveredSquared = 0;
  let sumBoth = 0;
  for (let i = 0; i < count; i++) {
    const share = travelledAt(table, (samples.seconds[i]! - start) / duration);
    const weight = weights[i]!;
    const value = samples.values[i]!;
    covered[i] = share;
    sum += weight;
    sumCovered += weight * share;
    sumValue += weight * value;
    sumCoveredSquared += weight * share * share;
    sumBoth += weight * share * value;
  }
  const determinant = sum * sumCoveredSquared - sumCovered * sumCovered;
  const excursion = determinant > 1e-9 ? (sum * sumBoth - sumCovered * sumValue) / determinant : 0;
  const fromLevel = (sumValue - excursion * sumCovered) / sum;
  const prior = [...family.prior(rest), (logDuration - Math.log(usualDuration)) / LIKELY_RATIO];
  const residuals = new Float64Array(count + prior.length);
  let cost = 0;
  for (let i = 0; i < count; i++) {
    residuals[i] = Math.sqrt(weights[i]!) * (samples.values[i]! - fromLevel - excursion * covered[i]!);
  }
  for (let i = 0; i < prior.length; i++) residuals[count + i] = prior[i]!;
  for (let i = 0; i < residuals.length; i++) cost += residuals[i]! * residuals[i]!;
  return { residuals, cost, fromLevel, excursion };
}

function descend(
  family: Family,
  samples: Samples,
  weights: Float64Array,
  start: readonly number[],
  usualDuration: number,
): { readonly parameters: readonly number[]; readonly trial: Trial } {
  let parameters = start;
  let trial = evaluate(family, samples, weights, parameters, usualDuration);
  let damping = 0.01;
  for (let step = 0; step < STEPS; step++) {
    const slopes = parameters.map((_, k) => {
      const nudge = 1e-4;
      const moved = parameters.map((value, j) => (j === k ? value + nudge : value));
      const { residuals } = evaluate(family, samples, weights, moved, usualDuration);
      return residuals.map((value, i) => (value - trial.residuals[i]!) / nudge);
    });
    const normal = slopes.map((a) => slopes.map((b) => dot(a, b)));
    const gradient = slopes.map((slope) => -dot(slope, trial.residuals));
    let gain = 0;
    for (let attempt = 0; attempt < 6 && gain === 0; attempt++) {
      const damped = normal.map((row, i) =>
        row.map((value, j) => (i === j ? value * (1 + damping) + 1e-9 : value)),
      );
      const cholesky = new CholeskyDecomposition(new Matrix(damped));
      const change = cholesky.isPositiveDefinite()
        ? cholesky.solve(Matrix.columnVector(gradient)).to1DArray()
        : parameters.map(() => 0);
      const next = parameters.map((value, k) => value + Math.min(1.5, Math.max(-1.5, change[k]!)));
      const attemptTrial = evaluate(family, samples, weights, next, usualDuration);
      if (attemptTrial.cost < trial.cost) {
        gain = (trial.cost - attemptTrial.cost) / trial.cost;
        parameters = next;
        trial = attemptTrial;
        damping = Math.max(1e-6, damping / 5);
      } else {
        damping *= 6;
      }
    }
    if (gain < 1e-5) break;
  }
  return { parameters, trial };
}

function dot(a: Float64Array, b: Float64Array): number {
  let sum = 0;
  for (let i = 0; i < a.length; i++) sum += a[i]! * b[i]!;
  return sum;
}
