import type { Body } from './body.js';
import { type JointGeometry, keypointsOf } from './jointGeometry.js';
import { jointDegrees, type Planes, type PossiblePlanes } from './movementPlanes.js';
import type { Samples } from './samples.js';
import { propagatedError, seenFrames } from './seenFrames.js';

/** Lasting error of a keypoint against its joint centre, in torso lengths: it differs from pose to pose. */
const POSED_ERROR_TORSOS = 0.02;

/**
 * Standard deviation of the error of the range, degrees: from not knowing the planes of movement, and from keypoints
 * that sit off their joint centres by amounts that change with the pose (averaging frames lessens neither).
 */
export function rangeErrorDegrees(
  body: Body,
  geometry: JointGeometry,
  planes: PossiblePlanes,
  samples: Samples,
): { readonly fromView: number; readonly fromKeypoints: number } {
  const keypoints = keypointsOf(geometry.first, geometry.second);
  // Frames whose angle was impossible have no sample.
  const sampled = new Set(samples.seconds);
  const frames = [...seenFrames(body, keypoints)].filter(({ frame }) => sampled.has(body.seconds[frame]!));
  if (frames.length === 0) return { fromView: 90, fromKeypoints: 90 };
  const order = frames.map((_, index) => index).sort((a, b) => samples.values[a]! - samples.values[b]!);
  const ends = [0.05, 0.95].map((share) => frames[order[Math.round(share * (order.length - 1))]!]!);
  const rangeIn = (one: Planes) =>
    jointDegrees(geometry, one, ends[1]!.points, 0) - jointDegrees(geometry, one, ends[0]!.points, 0);
  const middleRange = rangeIn(planes.mean);
  let variance = 0;
  for (const { planes: possible, weight } of planes.likely) {
    variance += weight * (rangeIn(possible) - middleRange) ** 2;
  }
  const fromKeypoints = ends.map(({ points }) =>
    propagatedError(
      keypoints,
      points,
      () => POSED_ERROR_TORSOS * body.torsoPixels,
      body.torsoPixels,
      (nudged) => jointDegrees(geometry, planes.mean, nudged, 0),
    ),
  );
  return { fromView: Math.sqrt(variance), fromKeypoints: Math.hypot(...fromKeypoints) };
}
