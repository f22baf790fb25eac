import { KEYPOINT_COUNT, KEYPOINT_INDEX, KEYPOINTS, otherSide } from '../../../core/pose/keypoints.js';
import type { PoseTrack } from '../../../core/pose/track.js';

/**
 * The track with every joint under the name of the lifter's own side. In a mirror image the model calls the left
 * arm the right one; the points stay where the picture shows them, since they are drawn over it.
 */
export function withOwnSides(track: PoseTrack, mirrored: boolean): PoseTrack {
  if (!mirrored) return track;
  const renamed = (values: Float32Array) =>
    values.map((_, index) => {
      const keypoint = index % KEYPOINT_COUNT;
      return values[index - keypoint + KEYPOINT_INDEX[otherSide(KEYPOINTS[keypoint]!)]]!;
    });
  return { ...track, x: renamed(track.x), y: renamed(track.y), score: renamed(track.score) };
}
