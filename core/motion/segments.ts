import { KEYPOINT_COUNT, KEYPOINT_INDEX, type Keypoint } from '../pose/keypoints.js';
import type { PoseTrack } from '../pose/track.js';
import { median } from './robust.js';

/**
 * Lengths of body segments as fractions of stature (Drillis and Contini 1966, after Winter, Biomechanics and Motor
 * Control of Human Movement, figure 4.1). People vary by about 5 %: bounds for what is plausible, never a measurement.
 */
export const SEGMENT_FRACTION_OF_STATURE = {
  upperArm: 0.186,
  forearm: 0.146,
  thigh: 0.245,
  shank: 0.246,
  trunk: 0.288,
} as const;

export type Segment = keyof typeof SEGMENT_FRACTION_OF_STATURE;

/** The limb segments between two keypoints of one side, and the joints they join. */
export const LIMB_SEGMENTS = [
  { segment: 'upperArm', from: 'shoulder', to: 'elbow' },
  { segment: 'forearm', from: 'elbow', to: 'wrist' },
  { segment: 'thigh', from: 'hip', to: 'knee' },
  { segment: 'shank', from: 'knee', to: 'ankle' },
] as const;

/** Length of each segment over the trunk's. */
export function lengthInTorsos(segment: Segment): number {
  return SEGMENT_FRACTION_OF_STATURE[segment] / SEGMENT_FRACTION_OF_STATURE.trunk;
}

const TORSO_POINTS: readonly Keypoint[] = ['left-shoulder', 'right-shoulder', 'left-hip', 'right-hip'];

/** Middle of the shoulders to middle of the hips in one frame, pixels. */
export function torsoPixelsOfFrame(track: Pick<PoseTrack, 'x' | 'y'>, frame: number): number {
  const at = TORSO_POINTS.map((name) => frame * KEYPOINT_COUNT + KEYPOINT_INDEX[name]) as [
    number,
    number,
    number,
    number,
  ];
  const dx = (track.x[at[0]]! + track.x[at[1]]! - track.x[at[2]]! - track.x[at[3]]!) / 2;
  const dy = (track.y[at[0]]! + track.y[at[1]]! - track.y[at[2]]! - track.y[at[3]]!) / 2;
  return Math.hypot(dx, dy);
}

/** Median torso length over the frames in which shoulders and hips were seen, pixels; 0 without any. */
export function torsoLengthPixels(track: Pick<PoseTrack, 'x' | 'y'>, seen: Uint8Array): number {
  const lengths: number[] = [];
  const frames = seen.length / KEYPOINT_COUNT;
  for (let frame = 0; frame < frames; frame += 1) {
    const all = TORSO_POINTS.every((name) => seen[frame * KEYPOINT_COUNT + KEYPOINT_INDEX[name]] === 1);
    if (all) lengths.push(torsoPixelsOfFrame(track, frame));
  }
  return median(lengths) ?? 0;
}
