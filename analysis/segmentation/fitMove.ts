import { CholeskyDecomposition, determinant, inverse, Matrix } from 'ml-matrix';
import type { Samples } from '../../core/motion/samples.js';
import { shownShare } from './bend.js';
import type { Family } from './moveFamilies.js';
import { type MoveShape, type ShapeTable, tabulate, travelledAt } from './moveShape.js';
import { type WanderingNoise, type Whitening, whitening } from './wanderingNoise.js';

/** One move between two levels, as a curve: still before `startSeconds`, still after `endSeconds`. */
export interface FittedMove {
  readonly shape: MoveShape;
  readonly table: ShapeTable;
  readonly startSeconds: number;
  readonly endSeconds: number;
  readonly fromLevel: number;
  readonly toLevel: number;
  /** Sum of squared whitened residuals plus the prior's; smaller is better. */
  readonly cost: number;
  /** Standard errors of the levels before and after the move. */
  readonly levelErrors: { readonly from: number; readonly to: number };
}

/** One family's best fit, with what is needed to weigh it against the others and to know how sure it is. */
export interface MoveFit {
  readonly family: Family;
  /** The shape's parameters in the family's own terms, and the variance of each. */
  readonly parameters: readonly number[];
  readonly variances: readonly number[];
  readonly move: FittedMove;
  /** Logarithm of how well the family explains the samples, all its shapes considered (Laplace), up to a constant. */
  readonly logEvidence: number;
  /** The move with each free parameter a little away, by `nudge`, for differences of whatever follows from a move. */
  readonly nudged: readonly { readonly move: FittedMove; readonly nudge: number }[];
  /** Covariance of the free parameters. */
  readonly covariance: Matrix;
}

/** The angle as the lifter moves it. */
export function moveValueAt(move: FittedMove, seconds: number): number {
  return levelAt(move, travelledShare(move, seconds));
}

/** The angle as the pose model shows it. */
export function shownValueAt(move: FittedMove, seconds: number): number {
  return levelAt(move, shownShare(travelledShare(move, seconds)));
}

function travelledShare({ table, startSeconds, endSeconds }: FittedMove, seconds: number): number {
  return travelledAt(table, (seconds - startSeconds) / (endSeconds - startSeconds));
}

function levelAt({ fromLevel, toLevel }: FittedMove, share: number): number {
  return fromLevel + (toLevel - fromLevel) * share;
}

/** The coarser look is rarely off by more than this on the scale of logarithms; keeps hopeless fits finite. */
const LIKELY_RATIO = 0.7;
/** How far beyond a turning point a move may seem to reach, since noise shifts the turning point. */
const TURN_SLACK_SECONDS = 0.1;
/** The first parameters, a move's centre and the logarithm of its duration, leave its shape as it is. */
const TIMES = 2;
/** Longest run of Gauss–Newton steps from one start. */
const STEPS = 15;

/**
 * Fits a move with stillness before and after to samples that hold exactly one, by generalised least squares
 * (Levenberg–Marquardt; the two levels follow linearly from the rest) from several starts, for every family of
 * shapes; the likeliest family first.
 *
 * @param weights 1 / variance of the part of each sample's error that is new in every frame
 * @param noise the part that wanders
 * @param roughly where the move lies, from a coarser look
 * @param within the turning points around it
 * @param families the shapes to try, with what is known about them beforehand
 */
export function fitMove(
  samples: Samples,
  weights: Float64Array,
  noise: WanderingNoise,
  roughly: { readonly startSeconds: number; readonly endSeconds: number },
  within: Within,
  families: readonly Family[],
): readonly MoveFit[] {
  const problem = statedProblem(samples, whitening(samples.seconds, weights, noise), roughly, within);
  return families
    .map((family) => fitFamily(family, problem))
    .toSorted((a, b) => b.logEvidence - a.logEvidence);
}

interface Problem {
  readonly seconds: Float64Array;
  readonly whiten: Whitening;
  readonly whiteOnes: Float64Array;
  readonly whiteValues: Float64Array;
  /** The whitened ones times themselves, and times the whitened values. */
  readonly ones: number;
  readonly onesValues: number;
  readonly roughMiddle: number;
  readonly roughDuration: number;
  readonly within: Within;
}

/** The turning points that a move cannot reach beyond; infinite where the film cuts it. */
export interface Within {
  readonly fromSeconds: number;
  readonly toSeconds: number;
}

function statedProblem(
  samples: Samples,
  whiten: Whitening,
  roughly: { readonly startSeconds: number; readonly endSeconds: number },
  within: Within,
): Problem {
  const whiteOnes = whiten.apply(new Float64Array(samples.seconds.length).fill(1));
  const whiteValues = whiten.apply(samples.values);
  return {
    ...{ seconds: samples.seconds, whiten, whiteOnes, whiteValues },
    ...{ ones: dot(whiteOnes, whiteOnes), onesValues: dot(whiteOnes, whiteValues) },
    roughMiddle: (roughly.startSeconds + roughly.endSeconds) / 2,
    roughDuration: Math.max(0.1, roughly.endSeconds - roughly.startSeconds),
    within,
  };
}

/**
 * Differences are taken over about half a standard error: what follows from a move may jump (a slow start comes to
 * count as stillness), and a jump within the error counts for what it is, one beyond it not at all.
 */
const NUDGE_ERRORS = 0.5;
const LEAST_NUDGE = 1e-3;
const MOST_NUDGE = 0.7;

function fitFamily(family: Family, problem: Problem): MoveFit {
  let best: Descent | null = null;
  for (const start of family.starts) {
    const first = [problem.roughMiddle, Math.log(problem.roughDuration * 1.08), ...start];
    const found = descend(family, problem, first);
    if (best === null || found.trial.cost < best.trial.cost) best = found;
  }
  const { parameters, trial } = best!;
  const slopes = slopesAt(family, problem, parameters, trial);
  const normal = new Matrix(slopes.map((a) => slopes.map((b) => dot(a, b))));
  for (let k = 0; k < parameters.length; k++) normal.set(k, k, normal.get(k, k) + 1e-9);
  const spread = family.deviations.reduce((sum, deviation) => sum + Math.log(deviation), 0);
  const covariance = inverse(normal, true);
  const at = (changed: readonly number[]) => moveAt(family, changed, evaluate(family, problem, changed));
  return {
    family,
    parameters: parameters.slice(TIMES),
    variances: family.usual.map((_, k) => covariance.get(k + TIMES, k + TIMES)),
    move: moveAt(family, parameters, trial),
    logEvidence:
      family.logShare - 0.5 * (trial.cost + Math.log(Math.max(1e-300, determinant(normal)))) - spread,
    nudged: parameters.map((_, k) => {
      const error = Math.sqrt(Math.max(0, covariance.get(k, k)));
      const nudge = Math.min(MOST_NUDGE, Math.max(LEAST_NUDGE, NUDGE_ERRORS * error));
      return { move: at(parameters.map((value, j) => (j === k ? value + nudge : value))), nudge };
    }),
    covariance,
  };
}

function moveAt(family: Family, parameters: readonly number[], trial: Trial): FittedMove {
  const [centre = 0, logDuration = 0, ...rest] = parameters;
  const half = Math.exp(logDuration) / 2;
  return {
    shape: family.shape(rest),
    table: trial.table,
    startSeconds: centre - half,
    endSeconds: centre + half,
    fromLevel: trial.fromLevel,
    toLevel: trial.fromLevel + trial.excursion,
    cost: trial.cost,
    levelErrors: trial.levelErrors,
  };
}

interface Trial {
  readonly table: ShapeTable;
  readonly residuals: Float64Array;
  readonly cost: number;
  readonly fromLevel: number;
  readonly excursion: number;
  readonly levelErrors: { readonly from: number; readonly to: number };
}

/** Residuals that keep parameters the samples say nothing about near everyday values. */
function strangeness(family: Family, parameters: readonly number[]): readonly number[] {
  return parameters.map((value, k) => (value - family.usual[k]!) / family.deviations[k]!);
}

/** Whitened residuals for given times and shape, with the best two levels; the shape's table where it is known already. */
function evaluate(
  family: Family,
  problem: Problem,
  parameters: readonly number[],
  table = tabulate(family.shape(parameters.slice(TIMES))),
): Trial {
  const { seconds, whiten, whiteOnes, whiteValues, ones, onesValues, roughDuration, within } = problem;
  const [centre = 0, logDuration = 0, ...rest] = parameters;
  const duration = Math.exp(logDuration);
  const start = centre - duration / 2;
  const count = seconds.length;
  const sharesGone = new Float64Array(count);
  for (let i = 0; i < count; i++) {
    sharesGone[i] = shownShare(travelledAt(table, (seconds[i]! - start) / duration));
  }
  const whiteShares = whiten.apply(sharesGone);
  const both = dot(whiteOnes, whiteShares);
  const shares = dot(whiteShares, whiteShares);
  const sharesValues = dot(whiteShares, whiteValues);
  const solvable = ones * shares - both * both;
  const excursion = solvable > 1e-12 ? (ones * sharesValues - both * onesValues) / solvable : 0;
  const fromLevel = (onesValues - excursion * both) / ones;
  const prior = [
    ...strangeness(family, rest),
    (logDuration - Math.log(roughDuration)) / LIKELY_RATIO,
    Math.max(0, within.fromSeconds - start) / TURN_SLACK_SECONDS,
    Math.max(0, start + duration - within.toSeconds) / TURN_SLACK_SECONDS,
  ];
  const residuals = new Float64Array(count + prior.length);
  let cost = 0;
  for (let i = 0; i < count; i++) {
    residuals[i] = whiteValues[i]! - fromLevel * whiteOnes[i]! - excursion * whiteShares[i]!;
  }
  residuals.set(prior, count);
  for (let i = 0; i < residuals.length; i++) cost += residuals[i]! * residuals[i]!;
  const spread = Math.max(1e-12, solvable);
  const levelErrors = {
    from: Math.sqrt(shares / spread),
    to: Math.sqrt(Math.max(0, shares - 2 * both + ones) / spread),
  };
  return { table, residuals, cost, fromLevel, excursion, levelErrors };
}

interface Descent {
  readonly parameters: readonly number[];
  readonly trial: Trial;
}

function slopesAt(
  family: Family,
  problem: Problem,
  parameters: readonly number[],
  trial: Trial,
): readonly Float64Array[] {
  const nudge = 1e-4;
  return parameters.map((_, k) => {
    const moved = parameters.map((value, j) => (j === k ? value + nudge : value));
    const slopes = evaluate(family, problem, moved, k < TIMES ? trial.table : undefined).residuals;
    for (let i = 0; i < slopes.length; i++) slopes[i] = (slopes[i]! - trial.residuals[i]!) / nudge;
    return slopes;
  });
}

function descend(family: Family, problem: Problem, start: readonly number[]): Descent {
  let parameters = start;
  let trial = evaluate(family, problem, parameters);
  let damping = 0.01;
  for (let step = 0; step < STEPS; step++) {
    const slopes = slopesAt(family, problem, parameters, trial);
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
      const attemptTrial = evaluate(family, problem, next);
      if (attemptTrial.cost < trial.cost) {
        gain = (trial.cost - attemptTrial.cost) / trial.cost;
        parameters = next;
        trial = attemptTrial;
        damping = Math.max(1e-6, damping / 5);
      } else {
        damping *= 6;
      }
    }
    if (gain < 1e-4) break;
  }
  return { parameters, trial };
}

function dot(a: Float64Array, b: Float64Array): number {
  let sum = 0;
  for (let i = 0; i < a.length; i++) sum += a[i]! * b[i]!;
  return sum;
}
