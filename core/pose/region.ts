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

/** Keypoints with scores below this are ignored when a region is chosen (MoveNet's MIN_CROP_KEYPOINT_SCORE). */
export const REGION_SCORE = 0.2;
/** The region is this many times as long as the box around the keypoints: head, hands and feet go on beyond theirs. */
const ROOM = 1.2;
/** From its middle to its edge it is at least this many torsos, since limbs may go unseen. */
const LEAST_TORSOS = 1.25;

/** The sides of a trunk, as indices of keypoints. */
const TRUNK_SIDES = (['left', 'right'] as const).map((side) => ({
  shoulder: KEYPOINT_INDEX[`${side}-shoulder`],
  hip: KEYPOINT_INDEX[`${side}-hip`],
}));

/** The whole picture, padded to a square. */
export function wholePicture(picture: PictureSize): Region {
  return {
    centerX: picture.width / 2,
    centerY: picture.height / 2,
    side: Math.max(picture.width, picture.height),
  };
}

/** A square before it is kept to the picture, in the units of the keypoints. */
export interface BodySquare {
  readonly x: number;
  readonly y: number;
  /** From the middle to an edge. */
  readonly half: number;
}

/**
 * The square that holds a body in all of some postures, with room to spare. Its middle is the middle of the body, not
 * the hips, about which MoveNet's own rule draws a square (tfjs-models, pose-detection, movenet/crop_utils): where arms
 * are overhead, a trunk is bent or legs lie forward, that one is up to half as large again, and the model sees every
 * limb that much smaller.
 *
 * @param postures each 17 × (x, y, score), in one of which a keypoint is seen
 */
export function squareAroundBody(postures: readonly Float32Array[]): BodySquare {
  let [left, top, right, bottom, torso] = [Infinity, Infinity, -Infinity, -Infinity, 0];
  for (const points of postures) {
    const seen = (keypoint: number) => points[keypoint * 3 + 2]! >= REGION_SCORE;
    for (let keypoint = 0; keypoint < KEYPOINT_COUNT; keypoint++) {
      if (!seen(keypoint)) continue;
      left = Math.min(left, points[keypoint * 3]!);
      right = Math.max(right, points[keypoint * 3]!);
      top = Math.min(top, points[keypoint * 3 + 1]!);
      bottom = Math.max(bottom, points[keypoint * 3 + 1]!);
    }
    for (const { shoulder, hip } of TRUNK_SIDES) {
      if (seen(shoulder) && seen(hip)) torso = Math.max(torso, distance(points, shoulder, hip));
    }
  }
  const half = Math.max((ROOM * Math.max(right - left, bottom - top)) / 2, LEAST_TORSOS * torso);
  return { x: (left + right) / 2, y: (top + bottom) / 2, half };
}

function distance(points: Float32Array, one: number, other: number): number {
  const across = points[one * 3]! - points[other * 3]!;
  const down = points[one * 3 + 1]! - points[other * 3 + 1]!;
  return Math.hypot(across, down);
}

/** A square as a region that never reaches further than the farthest edge of the picture. */
export function withinPicture({ x, y, half }: BodySquare, picture: PictureSize): Region {
  const farthestEdge = Math.max(x, picture.width - x, y, picture.height - y);
  return { centerX: x, centerY: y, side: 2 * Math.min(half, farthestEdge) };
}

/** A point of the cut-out (fractions, 0 left and top, 1 right and bottom) in pixels of the picture. */
export function toPicture(region: Region, u: number, v: number): { readonly x: number; readonly y: number } {
  return {
    x: region.centerX + (u - 0.5) * region.side,
    y: region.centerY + (v - 0.5) * region.side,
  };
}
