import { KEYPOINT_COUNT, KEYPOINT_INDEX, type Keypoint } from '../../../core/pose/keypoints.js';
import type { PoseTrack } from '../../../core/pose/track.js';

/**
 * A bare stick figure for these tests: joint centres in torso lengths (forward, up, to the lifter's left), turned by
 * the camera's place round the lifter and projected in parallel.
 */
export interface Pose {
  readonly elbowFlexion: number;
  readonly shoulderFlexion: number;
  readonly shoulderAbduction: number;
  readonly kneeFlexion: number;
  readonly hipFlexion: number;
  readonly trunkLean: number;
}

export const STANDING: Pose = {
  elbowFlexion: 5,
  shoulderFlexion: 0,
  shoulderAbduction: 0,
  kneeFlexion: 0,
  hipFlexion: 0,
  trunkLean: 0,
};

type Point = readonly [forward: number, up: number, left: number];

const radians = (degrees: number) => (degrees * Math.PI) / 180;
/** Direction in the sagittal plane turned forward from straight down. */
const down = (degrees: number): Point => [Math.sin(radians(degrees)), -Math.cos(radians(degrees)), 0];
const add = (a: Point, b: Point, scale: number): Point => [
  a[0] + b[0] * scale,
  a[1] + b[1] * scale,
  a[2] + b[2] * scale,
];

/** Joint centres of one pose; ankles stay where they are. */
export function joints(pose: Pose): Record<Keypoint, Point> {
  const result: Partial<Record<Keypoint, Point>> = {};
  // The trunk's downward direction: leaning forward takes the hips back under the shoulders.
  const trunkDown = -pose.trunkLean;
  for (const side of ['left', 'right'] as const) {
    const sign = side === 'left' ? 1 : -1;
    const thigh = trunkDown + pose.hipFlexion;
    const shank = thigh - pose.kneeFlexion;
    const ankle: Point = [0, 0, 0.2 * sign];
    const knee = add(ankle, down(shank), -0.854);
    const hip = add(knee, down(thigh), -0.851);
    const shoulder = add([hip[0], hip[1], 0.38 * sign], down(trunkDown), -1);
    const abducted = radians(pose.shoulderAbduction);
    const arm = down(trunkDown + pose.shoulderFlexion);
    const armDirection: Point = [
      arm[0] * Math.cos(abducted),
      arm[1] * Math.cos(abducted),
      Math.sin(abducted) * sign,
    ];
    const elbow = add(shoulder, armDirection, 0.646);
    const forearm = down(trunkDown + pose.shoulderFlexion + pose.elbowFlexion);
    const forearmDirection: Point = [
      forearm[0] * Math.cos(abducted),
      forearm[1] * Math.cos(abducted),
      Math.sin(abducted) * sign,
    ];
    result[`${side}-ankle`] = ankle;
    result[`${side}-knee`] = knee;
    result[`${side}-hip`] = hip;
    result[`${side}-shoulder`] = shoulder;
    result[`${side}-elbow`] = elbow;
    result[`${side}-wrist`] = add(elbow, forearmDirection, 0.507);
    const head: Point = add([shoulder[0], shoulder[1], 0], down(trunkDown), -0.35);
    result[`${side}-ear`] = [head[0], head[1], 0.13 * sign];
    result[`${side}-eye`] = [head[0] + 0.15, head[1] + 0.03, 0.06 * sign];
    result.nose = [head[0] + 0.2, head[1], 0];
  }
  return result as Record<Keypoint, Point>;
}

export interface Camera {
  /** Place of the camera round the lifter: 0° in front, 90° on their left, 180° behind, -90° on their right. */
  readonly azimuthDegrees: number;
  readonly torsoPixels: number;
}

/** A seeded source of normally distributed numbers (Box and Muller 1958 on a mulberry32 generator). */
export function normalSource(seed: number): () => number {
  let state = seed >>> 0;
  const uniform = () => {
    state = (state + 0x6d2b79f5) >>> 0;
    let mixed = Math.imul(state ^ (state >>> 15), state | 1);
    mixed ^= mixed + Math.imul(mixed ^ (mixed >>> 7), mixed | 61);
    return (((mixed ^ (mixed >>> 14)) >>> 0) + 0.5) / 2 ** 32;
  };
  return () => Math.sqrt(-2 * Math.log(uniform())) * Math.cos(2 * Math.PI * uniform());
}

/** A track of poses over time seen by a camera, with independent normal noise on every keypoint. */
export function filmed(
  seconds: readonly number[],
  poseAt: (seconds: number) => Pose,
  camera: Camera,
  noise: { readonly pixels: number; readonly seed: number } = { pixels: 0, seed: 1 },
): PoseTrack {
  const frames = seconds.length;
  const x = new Float32Array(frames * KEYPOINT_COUNT);
  const y = new Float32Array(frames * KEYPOINT_COUNT);
  const score = new Float32Array(frames * KEYPOINT_COUNT);
  const normal = normalSource(noise.seed);
  const turn = radians(camera.azimuthDegrees);
  seconds.forEach((time, frame) => {
    for (const [name, point] of Object.entries(joints(poseAt(time))) as [Keypoint, Point][]) {
      const at = frame * KEYPOINT_COUNT + KEYPOINT_INDEX[name];
      const [forward, up, left] = point;
      const across = left * Math.cos(turn) - forward * Math.sin(turn);
      const away = -left * Math.sin(turn) - forward * Math.cos(turn);
      x[at] = 400 + camera.torsoPixels * across + noise.pixels * normal();
      y[at] = 700 - camera.torsoPixels * up + noise.pixels * normal();
      score[at] = 0.7 - 0.2 * Math.max(-1, Math.min(1, away / 0.4));
    }
  });
  return {
    model: 'movenet-thunder',
    quality: 'standard',
    width: 800,
    height: 800,
    framesInFilm: frames,
    seconds: Float64Array.from(seconds),
    x,
    y,
    score,
    people: null,
  };
}

/** Times of a film of `duration` seconds at `rate` frames a second. */
export function times(duration: number, rate = 30): number[] {
  return Array.from({ length: Math.round(duration * rate) }, (_, frame) => frame / rate);
}
