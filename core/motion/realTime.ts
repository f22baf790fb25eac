import { KEYPOINT_COUNT, KEYPOINT_INDEX, KEYPOINTS, otherSide } from '../pose/keypoints.js';
import type { PoseTrack } from '../pose/track.js';

/** The track on the clock of reality: times of a film stored `slowMotionFactor` times too slowly are divided by it. */
export function inRealTime(track: PoseTrack, slowMotionFactor: number): PoseTrack {
  if (slowMotionFactor === 1) return track;
  return { ...track, seconds: track.seconds.map((seconds) => seconds / slowMotionFactor) };
}

/** The track of the lifter rather than of a mirror image: left and right exchanged in the picture and in the labels. */
export function unmirrored(track: PoseTrack): PoseTrack {
  const x = new Float32Array(track.x.length);
  const y = new Float32Array(track.y.length);
  const score = new Float32Array(track.score.length);
  for (let start = 0; start < x.length; start += KEYPOINT_COUNT) {
    KEYPOINTS.forEach((keypoint, index) => {
      const from = start + KEYPOINT_INDEX[otherSide(keypoint)];
      x[start + index] = track.width - track.x[from]!;
      y[start + index] = track.y[from]!;
      score[start + index] = track.score[from]!;
    });
  }
  return { ...track, x, y, score };
}
