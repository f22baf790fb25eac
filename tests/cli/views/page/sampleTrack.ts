import type { BoutReport } from '../../../../analysis/report/setReport.js';
import { KEYPOINT_COUNT, KEYPOINT_INDEX, type Keypoint, type Side } from '../../../../core/pose/keypoints.js';
import type { PoseTrack } from '../../../../core/pose/track.js';
import { sampleAngle } from './sampleBouts.js';

const LIMB = 0.17;

/** A bent-over lifter from the side, the working elbow at the given flexion; fractions of the picture height. */
function posture(side: Side, flexionDegrees: number): Readonly<Partial<Record<Keypoint, [number, number]>>> {
  const far: Side = side === 'left' ? 'right' : 'left';
  const shoulder: [number, number] = [0.5, 0.42];
  const upper = (flexionDegrees * 0.85 * Math.PI) / 180;
  const elbow: [number, number] = [
    shoulder[0] - Math.sin(upper) * LIMB,
    shoulder[1] + Math.cos(upper) * LIMB,
  ];
  const fore = upper - (flexionDegrees * Math.PI) / 180;
  const wrist: [number, number] = [elbow[0] - Math.sin(fore) * LIMB, elbow[1] + Math.cos(fore) * LIMB];
  return {
    nose: [0.6, 0.4],
    [`${side}-ear`]: [0.575, 0.375],
    [`${side}-eye`]: [0.6, 0.38],
    [`${side}-shoulder`]: shoulder,
    [`${far}-shoulder`]: [0.505, 0.435],
    [`${far}-elbow`]: [0.56, 0.56],
    [`${far}-wrist`]: [0.575, 0.69],
    [`${side}-elbow`]: elbow,
    [`${side}-wrist`]: wrist,
    [`${side}-hip`]: [0.24, 0.5],
    [`${far}-hip`]: [0.245, 0.505],
    [`${side}-knee`]: [0.3, 0.71],
    [`${far}-knee`]: [0.4, 0.7],
    [`${side}-ankle`]: [0.24, 0.92],
    [`${far}-ankle`]: [0.26, 0.9],
  } as Partial<Record<Keypoint, [number, number]>>;
}

/** The pose track of the invented bouts, in a picture of 480 by 640 pixels. */
export function sampleTrack(
  bouts: readonly BoutReport[],
  duration: number,
  framesPerSecond: number,
): PoseTrack {
  const frames = Math.floor(duration * framesPerSecond);
  const seconds = Float64Array.from({ length: frames }, (_, frame) => frame / framesPerSecond);
  const x = new Float32Array(frames * KEYPOINT_COUNT);
  const y = new Float32Array(frames * KEYPOINT_COUNT);
  const score = new Float32Array(frames * KEYPOINT_COUNT);
  const width = 480;
  const height = 640;
  seconds.forEach((at, frame) => {
    const bout = bouts.find((candidate) => at < candidate.endSeconds + 4) ?? bouts.at(-1)!;
    for (const [name, [px, py]] of Object.entries(posture(bout.side as Side, sampleAngle(bouts, at)))) {
      const index = frame * KEYPOINT_COUNT + KEYPOINT_INDEX[name as Keypoint];
      x[index] = px * height;
      y[index] = py * height;
      score[index] = 0.8;
    }
  });
  return {
    model: 'movenet-thunder',
    quality: 'standard',
    width,
    height,
    framesInFilm: frames,
    seconds,
    x,
    y,
    score,
    people: { medianCount: 1, lifterDoubtful: false },
  };
}
