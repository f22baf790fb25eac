import { addAt, type BandMatrix, factorize, inverseInBand, solveWith, zeroBandMatrix } from './bandMatrix.js';
import { solveDirected } from './directedFit.js';
import type { Samples } from './samples.js';

/**
 * A curve over time whose speed is piecewise linear: a quadratic B-spline on equally spaced knots.
 * Between `startSeconds` and `endSeconds` it has `cells` cells of `stepSeconds` each and `cells + 2`
 * coefficients; its speed at knot `j` is `(coefficients[j + 1] - coefficients[j]) / stepSeconds`.
 */
export interface SpeedSpline {
  readonly startSeconds: number;
  readonly stepSeconds: number;
  readonly cells: number;
  readonly coefficients: Float64Array;
}

export function endSeconds(spline: SpeedSpline): number {
  return spline.startSeconds + spline.cells * spline.stepSeconds;
}

export function knotSeconds(spline: SpeedSpline, knot: number): number {
  return spline.startSeconds + knot * spline.stepSeconds;
}

/** Weights of the three coefficients that make up the value at `share` (0 to 1) of a cell. */
function basis(share: number): readonly [number, number, number] {
  return [0.5 * (1 - share) ** 2, 0.5 + share - share ** 2, 0.5 * share ** 2];
}

function locate(spline: SpeedSpline, seconds: number): { readonly cell: number; readonly share: number } {
  const position = (seconds - spline.startSeconds) / spline.stepSeconds;
  const cell = Math.min(spline.cells - 1, Math.max(0, Math.floor(position)));
  return { cell, share: Math.min(1, Math.max(0, position - cell)) };
}

/** The value at a time; times outside the curve give its value at the nearer end. */
export function valueAt(spline: SpeedSpline, seconds: number): number {
  const { cell, share } = locate(spline, seconds);
  const [a, b, c] = basis(share);
  const { coefficients } = spline;
  return a * coefficients[cell]! + b * coefficients[cell + 1]! + c * coefficients[cell + 2]!;
}

export function speedAtKnot(spline: SpeedSpline, knot: number): number {
  return (spline.coefficients[knot + 1]! - spline.coefficients[knot]!) / spline.stepSeconds;
}

/** The speed at a time, per second; outside the curve its speed at the nearer end. */
export function speedAt(spline: SpeedSpline, seconds: number): number {
  const { cell, share } = locate(spline, seconds);
  return (1 - share) * speedAtKnot(spline, cell) + share * speedAtKnot(spline, cell + 1);
}

/** How a curve is to be fitted to samples. */
export interface FitRequest {
  readonly startSeconds: number;
  readonly stepSeconds: number;
  readonly cells: number;
  /**
   * Seconds over which the speed may change freely, at each knot (`cells + 1` values): details much shorter
   * are smoothed away. See `roughnessWeights`.
   */
  readonly smoothingSeconds: Float64Array;
  /** At each knot: 1 where the speed may not be negative, -1 where it may not be positive, 0 where it is free. */
  readonly directions: Int8Array | null;
}

/** The normal equations of a fit, kept so that they can be solved for many right-hand sides. */
export interface FitSystem {
  readonly request: FitRequest;
  readonly matrix: BandMatrix;
  readonly rightHandSide: Float64Array;
}

/**
 * Penalised least squares: the sum of squared residuals over their variances plus the integral of the squared
 * acceleration times a local weight. The weight is chosen so that the fit acts like a kernel of
 * `smoothingSeconds` (Silverman 1984: a smoothing spline is a kernel smoother of bandwidth
 * (weight / data density)^(1/4)).
 *
 * @param weights one a sample, 1 / variance times any robustness weight
 */
export function fitSystem(samples: Samples, weights: Float64Array, request: FitRequest): FitSystem {
  const { cells, stepSeconds, startSeconds } = request;
  const size = cells + 2;
  const matrix = zeroBandMatrix(size, 2);
  const spline: SpeedSpline = { startSeconds, stepSeconds, cells, coefficients: new Float64Array(size) };
  const cellOf = new Int32Array(samples.seconds.length);
  const shareOf = new Float64Array(samples.seconds.length);
  let total = 0;
  for (let i = 0; i < samples.seconds.length; i++) {
    const { cell, share } = locate(spline, samples.seconds[i]!);
    cellOf[i] = cell;
    shareOf[i] = share;
    const parts = basis(share);
    total += weights[i]!;
    for (let a = 0; a < 3; a++) {
      for (let b = a; b < 3; b++) addAt(matrix, cell + a, cell + b, weights[i]! * parts[a]! * parts[b]!);
    }
  }
  const density = total / (cells * stepSeconds);
  for (let knot = 0; knot < cells; knot++) {
    const scale = Math.min(request.smoothingSeconds[knot]!, request.smoothingSeconds[knot + 1]!);
    const weight = (density * scale ** 4) / stepSeconds ** 3;
    const parts = [1, -2, 1];
    for (let a = 0; a < 3; a++) {
      for (let b = a; b < 3; b++) addAt(matrix, knot + a, knot + b, weight * parts[a]! * parts[b]!);
    }
  }
  // A whisper of a pull to zero speed keeps stretches without samples solvable.
  for (let knot = 0; knot <= cells; knot++) {
    const whisper = density * 1e-9;
    addAt(matrix, knot, knot, whisper);
    addAt(matrix, knot + 1, knot + 1, whisper);
    addAt(matrix, knot, knot + 1, -whisper);
  }
  return { request, matrix, rightHandSide: rightHandSideFor(samples.values, weights, cellOf, shareOf, size) };
}

function rightHandSideFor(
  values: Float64Array,
  weights: Float64Array,
  cellOf: Int32Array,
  shareOf: Float64Array,
  size: number,
): Float64Array {
  const rightHandSide = new Float64Array(size);
  for (let i = 0; i < values.length; i++) {
    const parts = basis(shareOf[i]!);
    for (let a = 0; a < 3; a++) rightHandSide[cellOf[i]! + a]! += weights[i]! * parts[a]! * values[i]!;
  }
  return rightHandSide;
}

/** Solves a fit, where directions are wanted within them. */
export function solveFit(system: FitSystem): SpeedSpline {
  const { request, matrix, rightHandSide } = system;
  const { startSeconds, stepSeconds, cells, directions } = request;
  const free = solveWith(factorize(matrix), rightHandSide);
  const coefficients = directions === null ? free : solveDirected(matrix, rightHandSide, directions, free);
  return { startSeconds, stepSeconds, cells, coefficients };
}

/** Standard errors of value and speed at each knot of an unconstrained fit, for weights of 1 / variance. */
export function knotStandardErrors(system: FitSystem): {
  readonly values: Float64Array;
  readonly speeds: Float64Array;
} {
  const { cells, stepSeconds } = system.request;
  const inverse = inverseInBand(factorize(system.matrix));
  const { size, entries } = inverse;
  const values = new Float64Array(cells + 1);
  const speeds = new Float64Array(cells + 1);
  for (let knot = 0; knot <= cells; knot++) {
    const a = entries[knot]!;
    const b = entries[knot + 1]!;
    const ab = entries[size + knot]!;
    values[knot] = Math.sqrt(Math.max(0, (a + b + 2 * ab) / 4));
    speeds[knot] = Math.sqrt(Math.max(0, a + b - 2 * ab)) / stepSeconds;
  }
  return { values, speeds };
}
