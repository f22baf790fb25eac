import {
  addAt,
  type BandMatrix,
  copyBandMatrix,
  factorize,
  inverseInBand,
  solveWith,
  timesVector,
  zeroBandMatrix,
} from './bandMatrix.js';
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

/** Solves a fit; with directions by a primal-dual interior-point method (Mehrotra 1992), else directly. */
export function solveFit(system: FitSystem): SpeedSpline {
  const { request, matrix, rightHandSide } = system;
  const { startSeconds, stepSeconds, cells, directions } = request;
  const free = solveWith(factorize(matrix), rightHandSide);
  const coefficients = directions === null ? free : solveDirected(matrix, rightHandSide, directions, free);
  return { startSeconds, stepSeconds, cells, coefficients };
}

function solveDirected(
  matrix: BandMatrix,
  rightHandSide: Float64Array,
  directions: Int8Array,
  start: Float64Array,
): Float64Array {
  const knots: number[] = [];
  for (let knot = 0; knot < directions.length; knot++) if (directions[knot] !== 0) knots.push(knot);
  if (knots.length === 0) return start;
  const count = knots.length;
  const spread = Math.max(1e-6, largestStep(start));
  const c = start.slice();
  const slack = new Float64Array(count);
  const dual = new Float64Array(count);
  // Scale of the dual: what the data would pull against a step of the usual size.
  const pull = Math.max(1e-12, matrix.entries[0]! * spread);
  for (let k = 0; k < count; k++) {
    const knot = knots[k]!;
    slack[k] = Math.max(directions[knot]! * (c[knot + 1]! - c[knot]!), spread * 0.01);
    dual[k] = pull * 0.01;
  }
  for (let iteration = 0; iteration < 60; iteration++) {
    const residualDual = timesVector(matrix, c);
    for (let i = 0; i < c.length; i++) residualDual[i]! -= rightHandSide[i]!;
    const residualPrimal = new Float64Array(count);
    let gap = 0;
    let worst = 0;
    for (let k = 0; k < count; k++) {
      const knot = knots[k]!;
      const sign = directions[knot]!;
      residualPrimal[k] = sign * (c[knot + 1]! - c[knot]!) - slack[k]!;
      residualDual[knot]! += sign * dual[k]!;
      residualDual[knot + 1]! -= sign * dual[k]!;
      gap += slack[k]! * dual[k]!;
      worst = Math.max(worst, Math.abs(residualPrimal[k]!));
    }
    const mean = gap / count;
    if (mean < pull * spread * 1e-9 && worst < spread * 1e-7) break;
    const system = copyBandMatrix(matrix);
    for (let k = 0; k < count; k++) {
      const knot = knots[k]!;
      const ratio = dual[k]! / slack[k]!;
      addAt(system, knot, knot, ratio);
      addAt(system, knot + 1, knot + 1, ratio);
      addAt(system, knot, knot + 1, -ratio);
    }
    const factor = factorize(system);
    const direction = (target: Float64Array) => {
      const side = new Float64Array(c.length);
      for (let i = 0; i < c.length; i++) side[i] = -residualDual[i]!;
      for (let k = 0; k < count; k++) {
        const knot = knots[k]!;
        const sign = directions[knot]!;
        const amount =
          sign * ((target[k]! - slack[k]! * dual[k]! - dual[k]! * residualPrimal[k]!) / slack[k]!);
        side[knot + 1]! += amount;
        side[knot]! -= amount;
      }
      const dc = solveWith(factor, side);
      const dSlack = new Float64Array(count);
      const dDual = new Float64Array(count);
      for (let k = 0; k < count; k++) {
        const knot = knots[k]!;
        dSlack[k] = directions[knot]! * (dc[knot + 1]! - dc[knot]!) + residualPrimal[k]!;
        dDual[k] = (target[k]! - slack[k]! * dual[k]! - dual[k]! * dSlack[k]!) / slack[k]!;
      }
      return { dc, dSlack, dDual };
    };
    const predictor = direction(new Float64Array(count));
    const affineSlack = largestStepKeepingPositive(slack, predictor.dSlack);
    const affineDual = largestStepKeepingPositive(dual, predictor.dDual);
    let affineGap = 0;
    for (let k = 0; k < count; k++) {
      affineGap +=
        (slack[k]! + affineSlack * predictor.dSlack[k]!) * (dual[k]! + affineDual * predictor.dDual[k]!);
    }
    const centring = (affineGap / gap) ** 3;
    const target = new Float64Array(count);
    for (let k = 0; k < count; k++) {
      target[k] = centring * mean - predictor.dSlack[k]! * predictor.dDual[k]!;
    }
    const step = direction(target);
    const alpha =
      0.99 *
      Math.min(largestStepKeepingPositive(slack, step.dSlack), largestStepKeepingPositive(dual, step.dDual));
    for (let i = 0; i < c.length; i++) c[i]! += alpha * step.dc[i]!;
    for (let k = 0; k < count; k++) {
      slack[k]! += alpha * step.dSlack[k]!;
      dual[k]! += alpha * step.dDual[k]!;
    }
  }
  return c;
}

function largestStep(coefficients: Float64Array): number {
  let largest = 0;
  for (let i = 1; i < coefficients.length; i++) {
    largest = Math.max(largest, Math.abs(coefficients[i]! - coefficients[i - 1]!));
  }
  return largest;
}

function largestStepKeepingPositive(values: Float64Array, changes: Float64Array): number {
  let alpha = 1;
  for (let k = 0; k < values.length; k++) {
    if (changes[k]! < 0) alpha = Math.min(alpha, -values[k]! / changes[k]!);
  }
  return alpha;
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
