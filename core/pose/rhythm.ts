import { KEYPOINT_COUNT } from './keypoints.js';
import { SEEN_SCORE } from './people.js';
import type { Trail } from './sightings.js';

/** How a person moves over a film. */
export interface Rhythm {
  /** Standard deviation of the body's main movement, in body extents. */
  readonly amplitude: number;
  /** How well that movement repeats: its highest autocorrelation at 1 to 15 s, 0 to 1. */
  readonly repetition: number;
}

const SHORTEST_PERIOD_SECONDS = 1;
const LONGEST_PERIOD_SECONDS = 15;
const POWER_ITERATIONS = 30;

/**
 * Finds a trail's main movement (first principal component of its keypoints, walking about taken out) and
 * how well it repeats.
 */
export function rhythmOf(trail: Trail): Rhythm {
  if (trail.length < 4) return { amplitude: 0, repetition: 0 };
  const postures = trail.map((sighting) => postureOf(sighting.points, sighting.figure.extent));
  const length = postures[0]!.length;
  const mean = new Float64Array(length);
  for (const posture of postures) {
    for (let at = 0; at < length; at++) mean[at]! += posture[at]! / postures.length;
  }
  const centered = postures.map((posture) => posture.map((value, index) => value - mean[index]!));
  const main = project(centered, principalDirection(centered));
  const variance = main.reduce((sum, value) => sum + value * value, 0) / main.length;
  const seconds = trail.map((sighting) => sighting.seconds);
  return { amplitude: Math.sqrt(variance), repetition: repetitionOf(main, seconds, variance) };
}

/** Keypoints against their own middle in body extents; those not seen sit at the middle. */
function postureOf(points: Float32Array, extent: number): Float64Array {
  let middleX = 0;
  let middleY = 0;
  let seen = 0;
  for (let keypoint = 0; keypoint < KEYPOINT_COUNT; keypoint++) {
    if (points[keypoint * 3 + 2]! < SEEN_SCORE) continue;
    middleX += points[keypoint * 3]!;
    middleY += points[keypoint * 3 + 1]!;
    seen += 1;
  }
  const posture = new Float64Array(KEYPOINT_COUNT * 2);
  for (let keypoint = 0; keypoint < KEYPOINT_COUNT; keypoint++) {
    if (points[keypoint * 3 + 2]! < SEEN_SCORE) continue;
    posture[keypoint * 2] = (points[keypoint * 3]! - middleX / seen) / extent;
    posture[keypoint * 2 + 1] = (points[keypoint * 3 + 1]! - middleY / seen) / extent;
  }
  return posture;
}

function principalDirection(rows: readonly Float64Array[]): Float64Array {
  const length = rows[0]!.length;
  let direction = Float64Array.from({ length }, (_, index) => 1 + index / length);
  for (let iteration = 0; iteration < POWER_ITERATIONS; iteration++) {
    const next = new Float64Array(length);
    const weights = project(rows, direction);
    rows.forEach((row, index) => {
      for (let at = 0; at < length; at++) next[at]! += row[at]! * weights[index]!;
    });
    const norm = Math.hypot(...next);
    if (norm === 0) return direction;
    direction = next.map((value) => value / norm);
  }
  return direction;
}

function project(rows: readonly Float64Array[], direction: Float64Array): Float64Array {
  return Float64Array.from(rows, (row) =>
    row.reduce((sum, value, index) => sum + value * direction[index]!, 0),
  );
}

/** Pairs of sightings are sorted into lags of half a second, since looks may be missing. */
function repetitionOf(values: Float64Array, seconds: readonly number[], variance: number): number {
  if (variance === 0) return 0;
  const sums = new Map<number, { total: number; pairs: number }>();
  for (let one = 0; one < values.length; one++) {
    for (let other = one + 1; other < values.length; other++) {
      const lag = seconds[other]! - seconds[one]!;
      if (lag > LONGEST_PERIOD_SECONDS) break;
      const slot = Math.round(lag * 2);
      const sum = sums.get(slot) ?? { total: 0, pairs: 0 };
      sums.set(slot, { total: sum.total + values[one]! * values[other]!, pairs: sum.pairs + 1 });
    }
  }
  // Any slow drift correlates at short lags: only what comes back after going negative is a repetition.
  let wentNegative = false;
  let highest = 0;
  for (const slot of [...sums.keys()].sort((a, b) => a - b)) {
    const { total, pairs } = sums.get(slot)!;
    if (pairs < 3) continue;
    const correlation = total / pairs / variance;
    if (correlation < 0) wentNegative = true;
    if (wentNegative && slot >= SHORTEST_PERIOD_SECONDS * 2) highest = Math.max(highest, correlation);
  }
  return Math.min(1, highest);
}
