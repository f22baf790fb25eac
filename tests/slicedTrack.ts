import { KEYPOINT_COUNT } from '../core/pose/keypoints.js';
import type { PoseTrack } from '../core/pose/track.js';

/** The part of a pose track from one time until just before another, as if the film showed no more. */
export function slicedTrack(
  track: PoseTrack,
  fromSeconds: number,
  toSeconds = Number.POSITIVE_INFINITY,
): PoseTrack {
  const first = track.seconds.findIndex((seconds) => seconds >= fromSeconds);
  const after = track.seconds.findIndex((seconds) => seconds >= toSeconds);
  const last = after < 0 ? track.seconds.length : after;
  const points = (values: Float32Array) => values.slice(first * KEYPOINT_COUNT, last * KEYPOINT_COUNT);
  return {
    ...track,
    framesInFilm: last - first,
    seconds: track.seconds.slice(first, last),
    x: points(track.x),
    y: points(track.y),
    score: points(track.score),
  };
}
