import type { BoutReport, SetReport } from '../../../analysis/report/setReport.js';
import { repairSwaps } from '../../../core/motion/labelSwaps.js';
import {
  KEYPOINT_COUNT,
  KEYPOINT_INDEX,
  KEYPOINTS,
  otherSide,
  type Side,
} from '../../../core/pose/keypoints.js';
import type { PoseTrack } from '../../../core/pose/track.js';

/** What hides behind the body, or lies over its near twin, in a side view. */
const FAR_JOINTS = ['shoulder', 'elbow', 'wrist', 'hip', 'knee', 'ankle'] as const;
/** The figure stays as it is in a bout for this long around it, seconds, so that no limb blinks at its ends. */
const AROUND_BOUT = 1;

/**
 * The pose track as every picture draws it: joints under the names of the lifter's own sides, flipped labels put
 * right, and without the far limbs of a side view, which the model places by guessing.
 *
 * @param track in film time; the points stay where the picture shows them, also in a mirror image.
 */
export function shownFigure(track: PoseTrack, report: SetReport): PoseTrack {
  const repaired = repairSwaps(withOwnSides(track, report.film.mirrored)).track;
  const score = Float32Array.from(repaired.score);
  for (const bout of report.bouts) {
    const far = hiddenSide(bout, report.bouts);
    if (far === null) continue;
    const from = (bout.startSeconds - AROUND_BOUT) * report.film.slowMotionFactor;
    const to = (bout.endSeconds + AROUND_BOUT) * report.film.slowMotionFactor;
    repaired.seconds.forEach((seconds, frame) => {
      if (seconds < from || seconds > to) return;
      for (const joint of FAR_JOINTS) score[frame * KEYPOINT_COUNT + KEYPOINT_INDEX[`${far}-${joint}`]] = 0;
    });
  }
  return { ...repaired, score };
}

/** In a mirror image the model calls the left arm the right one. */
function withOwnSides(track: PoseTrack, mirrored: boolean): PoseTrack {
  if (!mirrored) return track;
  const renamed = (values: Float32Array) =>
    values.map((_, index) => {
      const keypoint = index % KEYPOINT_COUNT;
      return values[index - keypoint + KEYPOINT_INDEX[otherSide(KEYPOINTS[keypoint]!)]]!;
    });
  return { ...track, x: renamed(track.x), y: renamed(track.y), score: renamed(track.score) };
}

/** The side behind the body during a bout; null where the camera sees both, or both were measured. */
function hiddenSide(bout: BoutReport, bouts: readonly BoutReport[]): Side | null {
  const { facing } = bout.view;
  if (facing !== 'left' && facing !== 'right') return null;
  const far = facing === 'left' ? 'right' : 'left';
  const measured = bouts.some(
    (other) =>
      other.startSeconds <= bout.endSeconds &&
      other.endSeconds >= bout.startSeconds &&
      other.measuredSides.includes(far),
  );
  return measured ? null : far;
}
