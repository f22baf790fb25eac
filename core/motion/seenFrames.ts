import { KEYPOINT_COUNT } from '../pose/keypoints.js';
import type { Vector } from './angles.js';
import type { Body } from './body.js';
import type { BodyLine } from './jointGeometry.js';
import type { Samples } from './samples.js';

/** Positions of the keypoints of one frame, pixels; a copy that may be nudged. */
export interface Points {
  readonly x: Float64Array;
  readonly y: Float64Array;
}

/**
 * A quantity over the frames in which its keypoints were seen and its value is possible, with its error to first order
 * from theirs.
 */
export function collect(
  body: Body,
  keypoints: readonly number[],
  quantityOf: (frame: number) => (points: Points) => number,
  isPossible: (value: number) => boolean = () => true,
): Samples {
  const seconds: number[] = [];
  const values: number[] = [];
  const standardErrors: number[] = [];
  for (const { frame, points } of seenFrames(body, keypoints)) {
    const quantity = quantityOf(frame);
    const value = quantity(points);
    if (Number.isNaN(value) || !isPossible(value)) continue;
    seconds.push(body.seconds[frame]!);
    values.push(value);
    const error = (keypoint: number) => body.standardErrorPixels[frame * KEYPOINT_COUNT + keypoint]!;
    standardErrors.push(propagatedError(keypoints, points, error, body.torsoPixels, quantity));
  }
  return {
    seconds: Float64Array.from(seconds),
    values: Float64Array.from(values),
    standardErrors: Float64Array.from(standardErrors),
  };
}

/** The frames in which all the keypoints were seen, each with a copy of its points. */
export function* seenFrames(
  body: Body,
  keypoints: readonly number[],
): Generator<{ readonly frame: number; readonly points: Points }> {
  for (let frame = 0; frame < body.frames; frame += 1) {
    const start = frame * KEYPOINT_COUNT;
    if (!keypoints.every((keypoint) => body.seen[start + keypoint] === 1)) continue;
    const x = new Float64Array(body.x.subarray(start, start + KEYPOINT_COUNT));
    const y = new Float64Array(body.y.subarray(start, start + KEYPOINT_COUNT));
    yield { frame, points: { x, y } };
  }
}

const LARGEST_STANDARD_ERROR = 90;

/** Error of a quantity to first order from the errors of its keypoints, by nudging each coordinate. */
export function propagatedError(
  keypoints: readonly number[],
  points: Points,
  errorOf: (keypoint: number) => number,
  torsoPixels: number,
  quantity: (points: Points) => number,
): number {
  const nudge = Math.max(1e-3 * torsoPixels, 1e-6);
  let variance = 0;
  for (const keypoint of keypoints) {
    for (const coordinate of [points.x, points.y]) {
      const kept = coordinate[keypoint]!;
      coordinate[keypoint] = kept + nudge;
      const above = quantity(points);
      coordinate[keypoint] = kept - nudge;
      const below = quantity(points);
      coordinate[keypoint] = kept;
      const step = Math.abs(above - below);
      variance += (((step > 180 ? 360 - step : step) / (2 * nudge)) * errorOf(keypoint)) ** 2;
    }
  }
  return Math.min(LARGEST_STANDARD_ERROR, Math.sqrt(variance));
}

/** From the near end of a body line to its far end, pixels. */
export function direction(line: BodyLine, points: Points): Vector {
  const from = middle(line.from, points);
  const to = middle(line.to, points);
  return { x: to.x - from.x, y: to.y - from.y };
}

/** Middle of some keypoints, pixels. */
export function middle(keypoints: readonly number[], points: Points): Vector {
  const mean = (values: Float64Array) =>
    keypoints.reduce((sum, keypoint) => sum + values[keypoint]!, 0) / keypoints.length;
  return { x: mean(points.x), y: mean(points.y) };
}
