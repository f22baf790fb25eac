import { KEYPOINT_COUNT } from '../pose/keypoints.js';
import type { PoseTrack } from '../pose/track.js';
import { median, NORMAL_CONSISTENCY } from './robust.js';

/** Four frames further apart than this say more about movement than about noise, seconds. */
const LONGEST_STENCIL_SECONDS = 0.5;
/** Fewer stencils than this give no estimate for one keypoint; the body's median stands in. */
const FEWEST_STENCILS = 12;
const FEWEST_KEYPOINTS_FOR_SHAKE = 10;
/** No keypoint is taken to be better than this share of the body's height in the picture. */
const SMALLEST_SHARE_OF_BODY = 0.001;
/** A keypoint at half the confidence usual for it is taken to be twice as uncertain, within these factors. */
const CONFIDENCE_FACTOR_RANGE = [0.7, 3] as const;

/**
 * Standard error of every keypoint in each coordinate, pixels, estimated from the track itself.
 *
 * The third divided difference over four neighbouring frames cancels any movement that is quadratic in time, also at
 * irregular times; scaled to unit weight its spread is that of the frame-to-frame noise. What all keypoints share is
 * the camera's shake and is taken off. The spread is taken robustly per keypoint over the film, and shared out over the frames by the model's confidence.
 */
export function keypointNoise(track: PoseTrack, seen: Uint8Array): Float32Array {
  const frames = track.seconds.length;
  const result = new Float32Array(frames * KEYPOINT_COUNT);
  const floor = SMALLEST_SHARE_OF_BODY * bodyHeight(track, seen);
  const differences = thirdDifferences(track, seen).map(withoutShake);
  const spreads = Array.from({ length: KEYPOINT_COUNT }, (_, keypoint) => spreadOf(differences, keypoint));
  const known = spreads.filter((spread) => spread !== null).sort((a, b) => a - b);
  const usual = known[known.length >> 1] ?? 5 * floor;
  for (let keypoint = 0; keypoint < KEYPOINT_COUNT; keypoint += 1) {
    const spread = Math.max(spreads[keypoint] ?? usual, floor);
    const usualScore = meanSeenScore(track, seen, keypoint);
    for (let frame = 0; frame < frames; frame += 1) {
      const at = frame * KEYPOINT_COUNT + keypoint;
      const factor = usualScore === 0 ? 1 : usualScore / Math.max(track.score[at]!, 0.05);
      const [least, most] = CONFIDENCE_FACTOR_RANGE;
      result[at] = spread * Math.min(most, Math.max(least, factor));
    }
  }
  return result;
}

/** Third differences from each frame on, per keypoint; null where the keypoint was not seen in all four frames. */
function thirdDifferences(
  track: PoseTrack,
  seen: Uint8Array,
): readonly (readonly ({ readonly x: number; readonly y: number } | null)[])[] {
  const all: ({ x: number; y: number } | null)[][] = [];
  for (let first = 0; first + 3 < track.seconds.length; first += 1) {
    const span = track.seconds[first + 3]! - track.seconds[first]!;
    if (span > LONGEST_STENCIL_SECONDS) continue;
    const stencil = [first, first + 1, first + 2, first + 3];
    const weights = unitThirdDifference(stencil.map((frame) => track.seconds[frame]!));
    const sum = (values: Float32Array, keypoint: number) =>
      stencil.reduce(
        (total, frame, index) => total + weights[index]! * values[frame * KEYPOINT_COUNT + keypoint]!,
        0,
      );
    all.push(
      Array.from({ length: KEYPOINT_COUNT }, (_, keypoint) =>
        stencil.every((frame) => seen[frame * KEYPOINT_COUNT + keypoint] === 1)
          ? { x: sum(track.x, keypoint), y: sum(track.y, keypoint) }
          : null,
      ),
    );
  }
  return all;
}

/**
 * Takes off what all keypoints share at an instant: the shake of the camera, which moves no joint against another.
 * The median of many keypoints is itself a little noisy; few keypoints are left as they are.
 */
function withoutShake(
  differences: readonly ({ readonly x: number; readonly y: number } | null)[],
): readonly ({ readonly x: number; readonly y: number } | null)[] {
  const present = differences.filter((one) => one !== null);
  if (present.length < FEWEST_KEYPOINTS_FOR_SHAKE) return differences;
  const x = median(present.map((one) => one.x))!;
  const y = median(present.map((one) => one.y))!;
  return differences.map((one) => one && { x: one.x - x, y: one.y - y });
}

function spreadOf(
  differences: readonly (readonly ({ readonly x: number; readonly y: number } | null)[])[],
  keypoint: number,
): number | null {
  const sizes = differences.flatMap((all) => {
    const one = all[keypoint];
    return one ? [Math.abs(one.x), Math.abs(one.y)] : [];
  });
  return sizes.length < FEWEST_STENCILS ? null : NORMAL_CONSISTENCY * median(sizes)!;
}

/** Weights of the third divided difference at four times, scaled so that their squares add up to one. */
export function unitThirdDifference(times: readonly number[]): readonly number[] {
  const weights = times.map((time, index) =>
    times.reduce((product, other, at) => (at === index ? product : product / (time - other)), 1),
  );
  const norm = Math.hypot(...weights);
  return weights.map((weight) => weight / norm);
}

function meanSeenScore(track: PoseTrack, seen: Uint8Array, keypoint: number): number {
  let sum = 0;
  let count = 0;
  for (let at = keypoint; at < seen.length; at += KEYPOINT_COUNT) {
    if (seen[at] !== 1) continue;
    sum += track.score[at]!;
    count += 1;
  }
  return count === 0 ? 0 : sum / count;
}

/** Largest extent of the seen keypoints in a frame, mean over the frames, pixels. */
function bodyHeight(track: PoseTrack, seen: Uint8Array): number {
  let sum = 0;
  let count = 0;
  for (let frame = 0; frame < track.seconds.length; frame += 1) {
    let [left, right, top, bottom] = [Infinity, -Infinity, Infinity, -Infinity];
    for (let at = frame * KEYPOINT_COUNT; at < (frame + 1) * KEYPOINT_COUNT; at += 1) {
      if (seen[at] !== 1) continue;
      left = Math.min(left, track.x[at]!);
      right = Math.max(right, track.x[at]!);
      top = Math.min(top, track.y[at]!);
      bottom = Math.max(bottom, track.y[at]!);
    }
    if (right < left) continue;
    sum += Math.max(right - left, bottom - top);
    count += 1;
  }
  return count === 0 ? 0 : sum / count;
}
