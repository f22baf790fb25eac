import { findExercise } from '../exercises/catalogue.js';
import { FEATURE_NAMES } from './features.js';
import { PROFILE_ROWS } from './profiles.js';

export interface Candidate {
  readonly id: string;
  /** Share of the likelihood among all exercises known, 0 to 1. */
  readonly confidence: number;
  /** Root mean square of the differences from the exercise's usual look, in its usual deviations. */
  readonly distance: number;
}

/** People differ more than the simulated lifter: no feature is taken to be surer than this. */
const LEAST_DEVIATION = { degrees: 14, torsos: 0.17, rests: 0.3, view: 0.25, alike: 0.3 } as const;
/** A single feature counts against an exercise only so much, squared deviations: keypoints go astray. */
const MOST_SQUARED = 12;
/** What is seen here and usually hidden in an exercise speaks against that exercise, squared deviations. */
const UNEXPECTED_SQUARED = 4;
/** The features depend on one another: together they weigh as much as this many independent ones. */
const INDEPENDENT_FEATURES = 9;
/** What it takes for an exercise to be beyond doubt. Real people lie about twice as far from the profiles as simulated ones. */
const CERTAIN_CONFIDENCE = 0.95;
const CERTAIN_DISTANCE = 0.9;
/** Smaller movements than this share of an exercise’s usual range are gestures, not that exercise. */
const LEAST_RANGE_SHARE = 0.6;
/** Movements that differ more than this from every exercise are none of them. */
const LARGEST_DISTANCE = 1.7;

export function likelihoods(movement: readonly number[]): {
  readonly candidates: readonly Candidate[];
  readonly certain: boolean;
} {
  const scored = PROFILE_ROWS.filter(
    ([id, means]) => rangeShare(id, movement, means) >= LEAST_RANGE_SHARE,
  ).map(([id, means, deviations]) => {
    let sum = 0;
    let spread = 0;
    let count = 0;
    for (let feature = 0; feature < FEATURE_NAMES.length; feature++) {
      const value = movement[feature]!;
      const middle = means[feature];
      if (Number.isNaN(value)) continue;
      if (middle === null || middle === undefined) {
        sum += UNEXPECTED_SQUARED;
        count += 1;
        continue;
      }
      const least = leastDeviation(FEATURE_NAMES[feature]!);
      const deviation = Math.max(least, deviations[feature] ?? 0);
      sum += Math.min(MOST_SQUARED, ((value - middle) / deviation) ** 2);
      spread += 2 * Math.log(deviation / least);
      count += 1;
    }
    if (count === 0) return { id, meanSquare: Number.POSITIVE_INFINITY, cost: Number.POSITIVE_INFINITY };
    return { id, meanSquare: sum / count, cost: (sum + spread) / count };
  });
  const best = Math.min(...scored.map(({ cost }) => cost));
  const weights = scored.map(({ cost }) => Math.exp((-INDEPENDENT_FEATURES / 2) * (cost - best)));
  const total = weights.reduce((sum, weight) => sum + weight, 0);
  const candidates = scored
    .map(({ id, meanSquare }, index) => ({
      ...{ id, confidence: weights[index]! / total, distance: Math.sqrt(meanSquare) },
    }))
    .toSorted((a, b) => b.confidence - a.confidence);
  const [first] = candidates;
  if (first === undefined || first.distance > LARGEST_DISTANCE) return { candidates: [], certain: false };
  const certain = first.confidence >= CERTAIN_CONFIDENCE && first.distance <= CERTAIN_DISTANCE;
  return { candidates, certain };
}

/** Range of the joint that drives an exercise over its usual one; 1 where either is unknown. */
function rangeShare(id: string, movement: readonly number[], means: readonly (number | null)[]): number {
  const joint = findExercise(id).drivingAngle.split('-')[0]!;
  const [low, high] = [FEATURE_NAMES.indexOf(`${joint} low`), FEATURE_NAMES.indexOf(`${joint} high`)];
  const range = Math.abs(movement[high]! - movement[low]!);
  const usual = Math.abs((means[high] ?? Number.NaN) - (means[low] ?? Number.NaN));
  return Number.isFinite(range / usual) ? range / usual : 1;
}

function leastDeviation(name: string): number {
  if (name === 'rests at') return LEAST_DEVIATION.rests;
  if (name === 'off side') return LEAST_DEVIATION.view;
  if (name === 'limbs alike') return LEAST_DEVIATION.alike;
  return name.includes('over') || name.includes('rises') ? LEAST_DEVIATION.torsos : LEAST_DEVIATION.degrees;
}
