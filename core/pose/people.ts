import { KEYPOINT_COUNT, KEYPOINT_INDEX } from './keypoints.js';

/** Everyone the coarse pass saw in one picture. */
export interface Look {
  readonly seconds: number;
  /** For each person 17 × (x, y, score), pixels of the upright picture. */
  readonly people: readonly Float32Array[];
}

/** Where a person is and how large, from the keypoints that were seen. */
export interface Figure {
  readonly centerX: number;
  readonly centerY: number;
  /** Length of the longer side of the box around the seen keypoints, pixels. */
  readonly extent: number;
  /** Mean score of the seventeen keypoints, 0 to 1. */
  readonly score: number;
}

/** Keypoints below this are where the model guesses. */
export const SEEN_SCORE = 0.3;
const FEWEST_SEEN = 5;

/** Measures a person, or null where too few keypoints are seen to be one. */
export function figureOf(points: Float32Array): Figure | null {
  let left = Number.POSITIVE_INFINITY;
  let right = Number.NEGATIVE_INFINITY;
  let top = Number.POSITIVE_INFINITY;
  let bottom = Number.NEGATIVE_INFINITY;
  let seen = 0;
  let total = 0;
  for (let keypoint = 0; keypoint < KEYPOINT_COUNT; keypoint++) {
    const score = points[keypoint * 3 + 2]!;
    total += score;
    if (score < SEEN_SCORE) continue;
    seen += 1;
    left = Math.min(left, points[keypoint * 3]!);
    right = Math.max(right, points[keypoint * 3]!);
    top = Math.min(top, points[keypoint * 3 + 1]!);
    bottom = Math.max(bottom, points[keypoint * 3 + 1]!);
  }
  if (seen < FEWEST_SEEN) return null;
  return {
    centerX: (left + right) / 2,
    centerY: (top + bottom) / 2,
    extent: Math.max(right - left, bottom - top, 1),
    score: total / KEYPOINT_COUNT,
  };
}

const FELT_WIDELY = ['left-wrist', 'right-wrist', 'left-elbow', 'right-elbow'].map(
  (name) => KEYPOINT_INDEX[name as keyof typeof KEYPOINT_INDEX],
);

/**
 * How far apart two sightings are, in body extents: mean distance of the keypoints seen in both, arms left
 * out since they move most. Infinite where fewer than four points compare.
 */
export function bodyDistance(one: Float32Array, other: Float32Array, extent: number): number {
  let total = 0;
  let compared = 0;
  for (let keypoint = 0; keypoint < KEYPOINT_COUNT; keypoint++) {
    if (FELT_WIDELY.includes(keypoint)) continue;
    const at = keypoint * 3;
    if (one[at + 2]! < SEEN_SCORE || other[at + 2]! < SEEN_SCORE) continue;
    total += Math.hypot(one[at]! - other[at]!, one[at + 1]! - other[at + 1]!);
    compared += 1;
  }
  return compared < 4 ? Number.POSITIVE_INFINITY : total / compared / extent;
}
