import { KEYPOINT_INDEX } from './keypoints.js';

/**
 * From the middle of the shoulders to the middle of the hips, in the unit of the points.
 *
 * @param points 17 × (x, y, score).
 */
export function trunkLength(points: Float32Array): number {
  const middle = (part: 'shoulder' | 'hip', axis: 0 | 1) =>
    (points[KEYPOINT_INDEX[`left-${part}`] * 3 + axis]! +
      points[KEYPOINT_INDEX[`right-${part}`] * 3 + axis]!) /
    2;
  return Math.hypot(middle('shoulder', 0) - middle('hip', 0), middle('shoulder', 1) - middle('hip', 1));
}
