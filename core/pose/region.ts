import { KEYPOINT_COUNT, KEYPOINT_INDEX } from './keypoints.js';

/** Size of a picture in pixels. */
export interface PictureSize {
  readonly width: number;
  readonly height: number;
}

/**
 * A square part of the upright picture, in its pixels; it may reach beyond the edges.
 *
 * Lying lifters are not turned upright for the model: on photographs of push-ups turning lowered its mean score
 * from 0.71 to 0.41 and from 0.56 to 0.37, and even standing people turned by 90° only lose 0.02 to 0.14.
 */
export interface Region {
  readonly centerX: number;
  readonly centerY: number;
  /** Length of one side. */
  readonly side: number;
}

/** Keypoints with scores up to this are ignored when a region is chosen (MoveNet's MIN_CROP_KEYPOINT_SCORE). */
export const REGION_SCORE = 0.2;
/** The region reaches this many times as far from the hips as the farthest torso point … */
const TORSO_REACH = 1.9;
/** … and this many times as far as the farthest point of the body. */
const BODY_REACH = 1.2;

const TORSO = (['left-shoulder', 'right-shoulder', 'left-hip', 'right-hip'] as const).map(
  (name) => KEYPOINT_INDEX[name],
);

/** The whole picture, padded to a square. */
export function wholePicture(picture: PictureSize): Region {
  return {
    centerX: picture.width / 2,
    centerY: picture.height / 2,
    side: Math.max(picture.width, picture.height),
  };
}

/** The midpoint of the hips, in the units of `points`. */
export function hipMidpoint(points: Float32Array): { readonly x: number; readonly y: number } {
  const left = KEYPOINT_INDEX['left-hip'] * 3;
  const right = KEYPOINT_INDEX['right-hip'] * 3;
  return { x: (points[left]! + points[right]!) / 2, y: (points[left + 1]! + points[right + 1]!) / 2 };
}

/**
 * Half the side of a square around `center` that holds a body with room to spare: the reach of MoveNet's own
 * crop rule (tfjs-models, pose-detection, movenet/crop_utils; the same factors are in its published notebook).
 *
 * @param points 17 × (x, y, score), pixels.
 */
export function reach(points: Float32Array, center: { readonly x: number; readonly y: number }): number {
  const distance = (keypoint: number) =>
    Math.max(Math.abs(points[keypoint * 3]! - center.x), Math.abs(points[keypoint * 3 + 1]! - center.y));
  let half = 0;
  for (const keypoint of TORSO) half = Math.max(half, TORSO_REACH * distance(keypoint));
  for (let keypoint = 0; keypoint < KEYPOINT_COUNT; keypoint++) {
    if (points[keypoint * 3 + 2]! >= REGION_SCORE) half = Math.max(half, BODY_REACH * distance(keypoint));
  }
  return half;
}

/** The square around a centre, never reaching further than the farthest edge of the picture. */
export function squareRegion(
  center: { readonly x: number; readonly y: number },
  half: number,
  picture: PictureSize,
): Region {
  const farthestEdge = Math.max(center.x, picture.width - center.x, center.y, picture.height - center.y);
  return { centerX: center.x, centerY: center.y, side: 2 * Math.min(half, farthestEdge) };
}

/** A point of the cut-out (fractions, 0 left and top, 1 right and bottom) in pixels of the picture. */
export function toPicture(region: Region, u: number, v: number): { readonly x: number; readonly y: number } {
  return {
    x: region.centerX + (u - 0.5) * region.side,
    y: region.centerY + (v - 0.5) * region.side,
  };
}
