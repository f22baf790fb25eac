import {
  addAt,
  type BandFactor,
  type BandMatrix,
  copyBandMatrix,
  factorize,
  solveWith,
  timesVector,
} from './bandMatrix.js';

const MOST_ITERATIONS = 60;
/** A step goes this share of the way to where a slack or a dual would vanish: on the border the method stalls. */
const SHARE_OF_THE_WAY = 0.99;
/** Slacks and duals start at least this share of their usual size away from the border. */
const START_SHARE = 0.01;
/** Solved where the mean product of slack and dual, and the worst residual, fall under these shares of their scales. */
const GAP_TOLERANCE = 1e-9;
const RESIDUAL_TOLERANCE = 1e-7;

/** The steps from coefficient `knots[k]` to the next that may not go against `signs[k]`. */
interface Bounds {
  readonly knots: readonly number[];
  readonly signs: readonly number[];
}

/** Where the method stands: the coefficients and, one a bounded step, what is left of it and what holds it back. */
interface State {
  readonly coefficients: Float64Array;
  readonly slack: Float64Array;
  readonly dual: Float64Array;
}

/** A change of the state. */
type Direction = State;

/** How far a state is from the solution. */
interface Residuals {
  readonly dual: Float64Array;
  readonly primal: Float64Array;
  /** Sum of the products of slack and dual: 0 at the solution. */
  readonly gap: number;
  readonly worstPrimal: number;
}

/**
 * Minimises `½ cᵀ A c − bᵀ c` where the steps of `c` may not go against their directions: a primal-dual interior-point
 * method with predictor and corrector (Mehrotra 1992).
 *
 * @param directions of the step from coefficient `j` to `j + 1`: 1 not negative, -1 not positive, 0 free
 * @param start the solution without directions
 */
export function solveDirected(
  matrix: BandMatrix,
  rightHandSide: Float64Array,
  directions: Int8Array,
  start: Float64Array,
): Float64Array {
  const bounds = boundsOf(directions);
  if (bounds.knots.length === 0) return start;
  const spread = Math.max(1e-6, largestStep(start));
  // Scale of the dual: what the data would pull against a step of the usual size.
  const pull = Math.max(1e-12, matrix.entries[0]! * spread);
  const state = startState(start, bounds, spread, pull);
  for (let iteration = 0; iteration < MOST_ITERATIONS; iteration++) {
    const residuals = residualsOf(state, matrix, rightHandSide, bounds);
    const mean = residuals.gap / bounds.knots.length;
    if (mean < pull * spread * GAP_TOLERANCE && residuals.worstPrimal < spread * RESIDUAL_TOLERANCE) break;
    const factor = factorize(withBarrier(matrix, state, bounds));
    const towards = (target: Float64Array) => newtonDirection(factor, state, residuals, bounds, target);
    const predictor = towards(new Float64Array(bounds.knots.length));
    const corrected = towards(correctedTarget(state, predictor, residuals.gap, mean));
    move(state, corrected);
  }
  return state.coefficients;
}

function boundsOf(directions: Int8Array): Bounds {
  const knots: number[] = [];
  for (let knot = 0; knot < directions.length; knot++) if (directions[knot] !== 0) knots.push(knot);
  return { knots, signs: knots.map((knot) => directions[knot]!) };
}

function startState(start: Float64Array, { knots, signs }: Bounds, spread: number, pull: number): State {
  const slack = Float64Array.from(knots, (knot, k) =>
    Math.max(signs[k]! * (start[knot + 1]! - start[knot]!), spread * START_SHARE),
  );
  return {
    coefficients: start.slice(),
    slack,
    dual: new Float64Array(knots.length).fill(pull * START_SHARE),
  };
}

function residualsOf(
  { coefficients, slack, dual }: State,
  matrix: BandMatrix,
  rightHandSide: Float64Array,
  { knots, signs }: Bounds,
): Residuals {
  const ofDual = timesVector(matrix, coefficients);
  for (let i = 0; i < coefficients.length; i++) ofDual[i]! -= rightHandSide[i]!;
  const ofPrimal = new Float64Array(knots.length);
  let gap = 0;
  let worstPrimal = 0;
  for (let k = 0; k < knots.length; k++) {
    const knot = knots[k]!;
    const sign = signs[k]!;
    ofPrimal[k] = sign * (coefficients[knot + 1]! - coefficients[knot]!) - slack[k]!;
    ofDual[knot]! += sign * dual[k]!;
    ofDual[knot + 1]! -= sign * dual[k]!;
    gap += slack[k]! * dual[k]!;
    worstPrimal = Math.max(worstPrimal, Math.abs(ofPrimal[k]!));
  }
  return { dual: ofDual, primal: ofPrimal, gap, worstPrimal };
}

/** The matrix with the curvature of the barrier that keeps bounded steps on their side. */
function withBarrier(matrix: BandMatrix, { slack, dual }: State, { knots }: Bounds): BandMatrix {
  const system = copyBandMatrix(matrix);
  for (let k = 0; k < knots.length; k++) {
    const knot = knots[k]!;
    const ratio = dual[k]! / slack[k]!;
    addAt(system, knot, knot, ratio);
    addAt(system, knot + 1, knot + 1, ratio);
    addAt(system, knot, knot + 1, -ratio);
  }
  return system;
}

/** The way to where residuals vanish and every product of slack and dual is its target. */
function newtonDirection(
  factor: BandFactor,
  { slack, dual }: State,
  residuals: Residuals,
  { knots, signs }: Bounds,
  target: Float64Array,
): Direction {
  const side = new Float64Array(residuals.dual.length);
  for (let i = 0; i < side.length; i++) side[i] = -residuals.dual[i]!;
  for (let k = 0; k < knots.length; k++) {
    const knot = knots[k]!;
    const amount =
      signs[k]! * ((target[k]! - slack[k]! * dual[k]! - dual[k]! * residuals.primal[k]!) / slack[k]!);
    side[knot + 1]! += amount;
    side[knot]! -= amount;
  }
  const change = solveWith(factor, side);
  const changeOfSlack = new Float64Array(knots.length);
  const changeOfDual = new Float64Array(knots.length);
  for (let k = 0; k < knots.length; k++) {
    const knot = knots[k]!;
    changeOfSlack[k] = signs[k]! * (change[knot + 1]! - change[knot]!) + residuals.primal[k]!;
    changeOfDual[k] = (target[k]! - slack[k]! * dual[k]! - dual[k]! * changeOfSlack[k]!) / slack[k]!;
  }
  return { coefficients: change, slack: changeOfSlack, dual: changeOfDual };
}

/** Mehrotra's target: as near the border as the predictor would get, less the part that it left out. */
function correctedTarget(state: State, predictor: Direction, gap: number, mean: number): Float64Array {
  const { slack, dual } = state;
  const ofSlack = largestStepKeepingPositive(slack, predictor.slack);
  const ofDual = largestStepKeepingPositive(dual, predictor.dual);
  let predictedGap = 0;
  for (let k = 0; k < slack.length; k++) {
    predictedGap += (slack[k]! + ofSlack * predictor.slack[k]!) * (dual[k]! + ofDual * predictor.dual[k]!);
  }
  const centring = (predictedGap / gap) ** 3;
  const target = new Float64Array(slack.length);
  for (let k = 0; k < slack.length; k++) {
    target[k] = centring * mean - predictor.slack[k]! * predictor.dual[k]!;
  }
  return target;
}

function move({ coefficients, slack, dual }: State, direction: Direction): void {
  const share =
    SHARE_OF_THE_WAY *
    Math.min(
      largestStepKeepingPositive(slack, direction.slack),
      largestStepKeepingPositive(dual, direction.dual),
    );
  for (let i = 0; i < coefficients.length; i++) coefficients[i]! += share * direction.coefficients[i]!;
  for (let k = 0; k < slack.length; k++) {
    slack[k]! += share * direction.slack[k]!;
    dual[k]! += share * direction.dual[k]!;
  }
}

function largestStep(coefficients: Float64Array): number {
  let largest = 0;
  for (let i = 1; i < coefficients.length; i++) {
    largest = Math.max(largest, Math.abs(coefficients[i]! - coefficients[i - 1]!));
  }
  return largest;
}

/** The largest share, at most 1, of the changes that leaves no value negative. */
function largestStepKeepingPositive(values: Float64Array, changes: Float64Array): number {
  let alpha = 1;
  for (let k = 0; k < values.length; k++) {
    if (changes[k]! < 0) alpha = Math.min(alpha, -values[k]! / changes[k]!);
  }
  return alpha;
}
