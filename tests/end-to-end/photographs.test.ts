import { execFileSync } from 'node:child_process';
import { existsSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { describe, expect, test } from 'vitest';
import { type Ffmpeg, locateFfmpeg } from '../../core/media/locateFfmpeg.js';
import { angleBetweenDegrees } from '../../core/motion/angles.js';
import { cutOut } from '../../core/pose/cutOut.js';
import { KEYPOINT_COUNT, KEYPOINT_INDEX, type Keypoint, type Side } from '../../core/pose/keypoints.js';
import { loadPoseModel, type PoseModel } from '../../core/pose/poseModel.js';
import { squareAroundBody, toPicture, wholePicture, withinPicture } from '../../core/pose/region.js';

/** Real people at both ends of ten exercises; not part of the project. */
const PHOTOGRAPHS = fileURLToPath(new URL('../../../shared/photos/', import.meta.url));

interface Pair {
  readonly name: string;
  readonly joint: 'elbow' | 'knee' | 'hip' | 'abduction';
  /** The limb that works and is seen better. */
  readonly side: Side;
  /** Which picture shows the joint bent (or the arm raised), as anyone can see. */
  readonly bent: 0 | 1;
  /** Least and most change of the angle in the picture, degrees: from half of the usual working range upwards. */
  readonly change: readonly [number, number];
}

/** Working ranges: common practice, no source. */
const PAIRS: readonly Pair[] = [
  { name: 'dumbbell-bicep-curl', joint: 'elbow', side: 'right', bent: 1, change: [55, 150] },
  { name: 'dumbbell-shoulder-press', joint: 'elbow', side: 'right', bent: 0, change: [50, 140] },
  { name: 'leg-extensions', joint: 'knee', side: 'right', bent: 0, change: [35, 110] },
  { name: 'one-arm-dumbbell-row', joint: 'elbow', side: 'left', bent: 1, change: [40, 120] },
  { name: 'pullups', joint: 'elbow', side: 'left', bent: 1, change: [50, 150] },
  { name: 'pushups', joint: 'elbow', side: 'left', bent: 1, change: [40, 130] },
  { name: 'side-lateral-raise', joint: 'abduction', side: 'left', bent: 1, change: [35, 110] },
  { name: 'wide-grip-lat-pulldown', joint: 'elbow', side: 'left', bent: 1, change: [45, 145] },
  // Photographed from the front: thighs and trunk point at the camera, so the picture's own angle moves the right way
  // and too little, and film from there gives no degrees.
  { name: 'bodyweight-squat', joint: 'knee', side: 'right', bent: 1, change: [20, 125] },
  { name: 'romanian-deadlift', joint: 'hip', side: 'right', bent: 0, change: [5, 95] },
];

const POINTS = {
  elbow: ['shoulder', 'elbow', 'wrist'],
  knee: ['hip', 'knee', 'ankle'],
  hip: ['shoulder', 'hip', 'knee'],
  abduction: ['hip', 'shoulder', 'elbow'],
} as const;

describe.skipIf(!existsSync(PHOTOGRAPHS))('two photographs of each exercise', () => {
  let ready: Promise<{ model: PoseModel; ffmpeg: Ffmpeg }> | undefined;
  const load = async () => ({ model: await loadPoseModel('movenet-thunder'), ffmpeg: await locateFfmpeg() });

  test.each(PAIRS)(
    '$name: the driving angle moves the right way by a plausible amount',
    async (pair) => {
      ready ??= load();
      const { model, ffmpeg } = await ready;
      const angles = await Promise.all(
        ([0, 1] as const).map(async (number) =>
          angleOf(pair, await pointsOf(`${PHOTOGRAPHS}${pair.name}-${number}.jpg`, model, ffmpeg)),
        ),
      );
      const change = angles[pair.bent]! - angles[1 - pair.bent]!;
      expect(change).toBeGreaterThan(pair.change[0]);
      expect(change).toBeLessThan(pair.change[1]);
    },
    60_000,
  );
});

/** Where the model sees the body, pixels: looked at again around what it found first. */
async function pointsOf(file: string, model: PoseModel, ffmpeg: Ffmpeg): Promise<Float32Array> {
  const width = 640;
  const scaled = ['-vf', `scale=${width}:-2`, '-f', 'rawvideo', '-pix_fmt', 'rgb24', '-'];
  const pixels = new Uint8Array(
    execFileSync(ffmpeg.path, ['-v', 'error', '-i', file, ...scaled], { maxBuffer: 2 ** 26 }),
  );
  const height = pixels.length / width / 3;
  const whole = { left: 0, top: 0, width, height };
  let region = wholePicture({ width, height });
  const points = new Float32Array(KEYPOINT_COUNT * 3);
  for (let look = 0; look < 3; look += 1) {
    const output = await model.infer(cutOut({ width, height, pixels }, whole, region, model.size));
    for (let at = 0; at < points.length; at += 3) {
      const { x, y } = toPicture(region, output[at]!, output[at + 1]!);
      points.set([x, y, output[at + 2]!], at);
    }
    region = withinPicture(squareAroundBody([points]), { width, height });
  }
  return points;
}

function angleOf({ joint, side }: Pair, points: Float32Array): number {
  const [first, vertex, last] = POINTS[joint].map((name) => {
    const at = 3 * KEYPOINT_INDEX[`${side}-${name}` as Keypoint];
    return { x: points[at]!, y: points[at + 1]! };
  }) as [Point, Point, Point];
  const between = angleBetweenDegrees(from(vertex, first), from(vertex, last));
  return joint === 'abduction' ? between : 180 - between;
}

const from = (a: Point, b: Point): Point => ({ x: b.x - a.x, y: b.y - a.y });

interface Point {
  readonly x: number;
  readonly y: number;
}
