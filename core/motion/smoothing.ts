import { medianAbsoluteDeviation, quantileSorted } from 'simple-statistics';
import type { Samples } from './samples.js';
import { fitSystem, knotStandardErrors, type SpeedSpline, solveFit, valueAt } from './speedSpline.js';

/** A stretch of samples without a long gap, smoothed. */
export interface SmoothCurve {
  readonly samples: Samples;
  readonly spline: SpeedSpline;
  /** Robustness weight of each sample, 0 (an outlier) to 1. */
  readonly trust: Float64Array;
  /** Standard deviation of a sample of average standard error around the curve, same unit as the values. */
  readonly noise: number;
  /** Standard errors of value and speed at each knot, noise and gaps considered. */
  readonly standardErrors: { readonly values: Float64Array; readonly speeds: Float64Array };
}

export interface SmoothingOptions {
  /** Details much shorter than this are smoothed away, seconds. Chosen from the samples' own rate when absent. */
  readonly smoothingSeconds?: number;
  /** Samples further apart than this end one curve and begin the next, seconds. */
  readonly longestGapSeconds?: number;
}

/** Gaps up to this are bridged, with the uncertainty that follows from having no samples there. */
export const LONGEST_GAP_SECONDS = 0.7;
/** A stretch shorter than this cannot show a move. */
const SHORTEST_STRETCH_SECONDS = 0.5;
/** From normal residuals to a standard deviation: 1 / Φ⁻¹(3/4). */
const DEVIATION_OF_NORMAL = 1.482602218505602;
/** A residual beyond this many standard deviations is an outlier, if it stands alone. */
const OUTLIER_DEVIATIONS = 5;
/** What an outlier keeps, so that a stretch of nothing but outliers can still be solved. */
const LEAST_TRUST = 0.001;

/**
 * Smooths samples at irregular times without shifting them: penalised least squares, weighted by the samples'
 * own standard errors, lone outliers taken out over four rounds. Long gaps split the curve.
 */
export function smoothSamples(samples: Samples, options: SmoothingOptions = {}): readonly SmoothCurve[] {
  return splitAtGaps(samples, options.longestGapSeconds ?? LONGEST_GAP_SECONDS)
    .filter((part) => part.seconds.length >= 4 && lengthSeconds(part) >= SHORTEST_STRETCH_SECONDS)
    .map((part) => smoothStretch(part, options.smoothingSeconds ?? chosenSmoothingSeconds(part)));
}

/** The samples in stretches without a gap longer than `longestGapSeconds`. */
export function splitAtGaps(samples: Samples, longestGapSeconds: number): readonly Samples[] {
  const { seconds } = samples;
  const parts: Samples[] = [];
  let begin = 0;
  for (let i = 1; i <= seconds.length; i++) {
    if (i < seconds.length && seconds[i]! - seconds[i - 1]! <= longestGapSeconds) continue;
    if (i > begin) parts.push(slice(samples, begin, i));
    begin = i;
  }
  return parts;
}

/** The samples from index `begin` up to, not including, `end`. */
export function slice(samples: Samples, begin: number, end: number): Samples {
  return {
    seconds: samples.seconds.subarray(begin, end),
    values: samples.values.subarray(begin, end),
    standardErrors: samples.standardErrors.subarray(begin, end),
  };
}

/** The samples between two times, both included. */
export function between(samples: Samples, fromSeconds: number, toSeconds: number): Samples {
  let begin = 0;
  while (begin < samples.seconds.length && samples.seconds[begin]! < fromSeconds) begin++;
  let end = begin;
  while (end < samples.seconds.length && samples.seconds[end]! <= toSeconds) end++;
  return slice(samples, begin, end);
}

/** Median time between neighbouring samples, seconds. */
export function typicalInterval(samples: Samples): number {
  const intervals: number[] = [];
  for (let i = 1; i < samples.seconds.length; i++) {
    intervals.push(samples.seconds[i]! - samples.seconds[i - 1]!);
  }
  intervals.sort((a, b) => a - b);
  return intervals[Math.floor(intervals.length / 2)] ?? 0;
}

/** Candidate amounts of smoothing, as multiples of the time between samples, within bounds that keep a 0.4 s move. */
const CANDIDATE_INTERVALS = [0.7, 1, 1.4, 2, 2.8];
const LEAST_SMOOTHING_SECONDS = 0.02;
const MOST_SMOOTHING_SECONDS = 0.09;
/** Makes cross-validation prefer the smoother curve, as it errs towards rough ones (Kim and Gu 2004). */
const DEGREES_OF_FREEDOM_FACTOR = 1.4;

/**
 * The amount of smoothing that would best predict a sample from the others: generalised cross-validation (Craven and
 * Wahba 1979) over a few candidates. A quick film of quick moves keeps more detail than a noisy one of slow moves.
 */
function chosenSmoothingSeconds(samples: Samples): number {
  const interval = typicalInterval(samples);
  const candidates = CANDIDATE_INTERVALS.map((intervals) =>
    Math.max(
      LEAST_SMOOTHING_SECONDS,
      Math.min(intervals * interval, Math.max(MOST_SMOOTHING_SECONDS, interval)),
    ),
  );
  const scores = candidates.map((candidate) => crossValidation(samples, candidate));
  return candidates[scores.indexOf(Math.min(...scores))]!;
}

function crossValidation(samples: Samples, smoothingSeconds: number): number {
  const curve = smoothStretch(samples, smoothingSeconds);
  const { spline, trust, noise, standardErrors } = curve;
  const relative = relativeErrors(samples);
  let weighted = 0;
  let total = 0;
  let freedom = 0;
  for (let i = 0; i < samples.seconds.length; i++) {
    const weight = trust[i]! / relative[i]! ** 2;
    weighted += weight * (samples.values[i]! - valueAt(spline, samples.seconds[i]!)) ** 2;
    total += trust[i]!;
    const knot = Math.round((samples.seconds[i]! - spline.startSeconds) / spline.stepSeconds);
    const error = standardErrors.values[Math.min(spline.cells, Math.max(0, knot))]!;
    freedom += (trust[i]! * error ** 2) / (relative[i]! * noise) ** 2;
  }
  const left = Math.max(0.05, 1 - (DEGREES_OF_FREEDOM_FACTOR * freedom) / Math.max(1, total));
  return weighted / Math.max(1, total) / left ** 2;
}

function lengthSeconds(samples: Samples): number {
  return samples.seconds[samples.seconds.length - 1]! - samples.seconds[0]!;
}

function smoothStretch(samples: Samples, smoothingSeconds: number): SmoothCurve {
  const interval = typicalInterval(samples);
  const stepSeconds = Math.min(0.1, Math.max(1 / 60, interval));
  const startSeconds = samples.seconds[0]!;
  const cells = Math.max(2, Math.ceil(lengthSeconds(samples) / stepSeconds));
  const request = {
    startSeconds,
    stepSeconds,
    cells,
    smoothingSeconds: new Float64Array(cells + 1).fill(smoothingSeconds),
    directions: null,
  };
  const count = samples.seconds.length;
  const trust = firstTrust(samples);
  const relative = relativeErrors(samples);
  let noise = 1;
  for (let round = 0; ; round++) {
    const weights = new Float64Array(count);
    for (let i = 0; i < count; i++) weights[i] = trust[i]! / (relative[i]! * noise) ** 2;
    const system = fitSystem(samples, weights, request);
    const spline = solveFit(system);
    const residuals = new Array<number>(count);
    for (let i = 0; i < count; i++) {
      residuals[i] = (samples.values[i]! - valueAt(spline, samples.seconds[i]!)) / relative[i]!;
    }
    noise = Math.max(1e-3, DEVIATION_OF_NORMAL * medianAbsoluteDeviation(residuals));
    if (round === 4) {
      return { samples, spline, trust, noise, standardErrors: knotStandardErrors(system) };
    }
    markOutliers(residuals, Math.max(noise, 0.25), trust);
  }
}

/**
 * Takes the trust from samples that stand alone far off the curve. Several neighbours off to the same side are not
 * outliers: there the curve is too smooth for what the joint did, a sudden start say.
 */
function markOutliers(residuals: readonly number[], noise: number, trust: Float64Array): void {
  for (let i = 0; i < residuals.length; i++) {
    const size = Math.abs(residuals[i]!);
    let company = 0;
    for (const step of [-2, -1, 1, 2]) {
      const other = residuals[i + step];
      if (other !== undefined && other * residuals[i]! > 0 && Math.abs(other) > 0.4 * size) company++;
    }
    trust[i] = size > OUTLIER_DEVIATIONS * noise && company <= 1 ? LEAST_TRUST : 1;
  }
}

/**
 * Trust before the first fit: none in samples that stand far off the median of their five neighbours (Hampel), since
 * a wild sample would pull the first fit and make its neighbours look wild.
 */
function firstTrust(samples: Samples): Float64Array {
  const { values } = samples;
  const distances = Array.from(values, (value, i) => {
    const near = Array.from(values.subarray(Math.max(0, i - 2), i + 3)).sort((a, b) => a - b);
    return Math.abs(value - near[near.length >> 1]!);
  });
  const usual =
    DEVIATION_OF_NORMAL *
    quantileSorted(
      distances.toSorted((a, b) => a - b),
      0.7,
    );
  return Float64Array.from(distances, (distance) => (distance > 6 * Math.max(usual, 0.25) ? LEAST_TRUST : 1));
}

/** Each sample's standard error over their median: how it compares with its neighbours. */
function relativeErrors(samples: Samples): Float64Array {
  const sorted = Array.from(samples.standardErrors).sort((a, b) => a - b);
  const median = Math.max(1e-9, sorted[Math.floor(sorted.length / 2)]!);
  return samples.standardErrors.map((error) => Math.min(5, Math.max(0.4, error / median)));
}
