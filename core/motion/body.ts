import type { PoseTrack } from '../pose/track.js';
import { keypointNoise } from './keypointNoise.js';
import { repairSwaps } from './labelSwaps.js';
import { markSeen } from './plausibility.js';
import { torsoLengthPixels } from './segments.js';

/**
 * One person's keypoints over a film after repair: the layout of the pose track, with what each keypoint is worth.
 *
 * Frame `f` has keypoint `k` at index `f * 17 + k` of `x`, `y`, `score`, `seen` and `standardErrorPixels`.
 */
export interface Body extends PoseTrack {
  readonly frames: number;
  /** 1 where the keypoint was seen and is plausible over time, else 0. */
  readonly seen: Uint8Array;
  /** Standard error in each coordinate, pixels; meaningful where seen. */
  readonly standardErrorPixels: Float32Array;
  /** Median length from the middle of the shoulders to the middle of the hips, pixels; 0 where never seen. */
  readonly torsoPixels: number;
  /** Share of keypoint pairs (left and right of a joint in a frame) whose labels were exchanged, 0 to 1. */
  readonly swappedShare: number;
}

/**
 * Makes a body out of a pose track: exchanges left and right where the model's labels flipped, marks what was not
 * seen, and estimates each keypoint's error from the track itself. The track is not changed.
 */
export function readBody(track: PoseTrack): Body {
  const repaired = repairSwaps(track);
  const seen = markSeen(repaired.track);
  const standardErrorPixels = keypointNoise(repaired.track, seen);
  return {
    ...repaired.track,
    frames: track.seconds.length,
    seen,
    standardErrorPixels,
    torsoPixels: torsoLengthPixels(repaired.track, seen),
    swappedShare: repaired.swappedShare,
  };
}
