import { KEYPOINT_COUNT, KEYPOINT_INDEX, type Keypoint } from '../pose/keypoints.js';
import type { Body } from './body.js';
import type { Samples } from './samples.js';

/** `height`: upwards; `across`: to the right of the picture. */
export type Axis = 'height' | 'across';

/**
 * Position of one keypoint over time in torso lengths, upwards or to the right; against another keypoint when one is
 * named (a wrist against its shoulder), else against the lower left corner of the picture.
 */
export function positionSamples(
  body: Body,
  keypoint: Keypoint,
  axis: Axis,
  against: Keypoint | null = null,
): Samples {
  const seconds: number[] = [];
  const values: number[] = [];
  const standardErrors: number[] = [];
  const coordinate = axis === 'height' ? body.y : body.x;
  const sign = axis === 'height' ? -1 : 1;
  const origin = axis === 'height' ? body.height : 0;
  for (let frame = 0; frame < body.frames && body.torsoPixels > 0; frame += 1) {
    const at = frame * KEYPOINT_COUNT + KEYPOINT_INDEX[keypoint];
    const other = against === null ? null : frame * KEYPOINT_COUNT + KEYPOINT_INDEX[against];
    if (body.seen[at] !== 1 || (other !== null && body.seen[other] !== 1)) continue;
    const from = other === null ? origin : coordinate[other]!;
    const error = Math.hypot(
      body.standardErrorPixels[at]!,
      other === null ? 0 : body.standardErrorPixels[other]!,
    );
    seconds.push(body.seconds[frame]!);
    values.push((sign * (coordinate[at]! - from)) / body.torsoPixels);
    standardErrors.push(error / body.torsoPixels);
  }
  return {
    seconds: Float64Array.from(seconds),
    values: Float64Array.from(values),
    standardErrors: Float64Array.from(standardErrors),
  };
}
