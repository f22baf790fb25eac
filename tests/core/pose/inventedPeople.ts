import { KEYPOINT_INDEX, type Keypoint } from '../../../core/pose/keypoints.js';
import type { Look } from '../../../core/pose/people.js';

/** A standing figure, 1 tall with its feet at 0, 0; x to the right, y down. */
const STANDING: Readonly<Record<Keypoint, readonly [number, number]>> = {
  nose: [0, -0.94],
  'left-eye': [0.02, -0.96],
  'right-eye': [-0.02, -0.96],
  'left-ear': [0.04, -0.95],
  'right-ear': [-0.04, -0.95],
  'left-shoulder': [0.11, -0.82],
  'right-shoulder': [-0.11, -0.82],
  'left-elbow': [0.14, -0.64],
  'right-elbow': [-0.14, -0.64],
  'left-wrist': [0.15, -0.49],
  'right-wrist': [-0.15, -0.49],
  'left-hip': [0.08, -0.52],
  'right-hip': [-0.08, -0.52],
  'left-knee': [0.09, -0.28],
  'right-knee': [-0.09, -0.28],
  'left-ankle': [0.09, -0.04],
  'right-ankle': [-0.09, -0.04],
};

export interface InventedPerson {
  readonly x: number;
  readonly feetY: number;
  readonly height: number;
  /** How deep in a squat, 0 standing to 1. */
  readonly depth?: number;
  readonly score?: number;
}

/** Keypoints in pixels of an invented person; a squat lowers everything above the knees. */
export function person({ x, feetY, height, depth = 0, score = 0.8 }: InventedPerson): Float32Array {
  const points = new Float32Array(17 * 3);
  for (const [name, [right, down]] of Object.entries(STANDING)) {
    const lowered = down < -0.3 ? down + 0.25 * depth : down;
    points.set([x + right * height, feetY + lowered * height, score], KEYPOINT_INDEX[name as Keypoint] * 3);
  }
  return points;
}

/** Looks twice a second at the people a function places at every time. */
export function looksAt(
  durationSeconds: number,
  people: (seconds: number) => readonly Float32Array[],
): Look[] {
  return Array.from({ length: durationSeconds * 2 + 1 }, (_, index) => ({
    seconds: index / 2,
    people: people(index / 2),
  }));
}

/** Depth of a squat every `period` seconds. */
export function squatting(seconds: number, period: number): number {
  return (1 - Math.cos((2 * Math.PI * seconds) / period)) / 2;
}
