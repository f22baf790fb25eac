import { describe, expect, test } from 'vitest';
import { readPose } from '../../../core/pose/readPose.js';

const SIDE = 8;

/** Maps with nothing in them. */
function empty() {
  const places = SIDE * SIDE;
  return {
    side: SIDE,
    heatmap: new Float32Array(places * 17),
    center: new Float32Array(places),
    regression: new Float32Array(places * 34),
    offset: new Float32Array(places * 34),
  };
}
const at = (row: number, column: number) => row * SIDE + column;

describe('reading a pose', () => {
  test('a keypoint lies at its place plus the offset there', () => {
    const maps = empty();
    maps.center[at(4, 3)] = 0.9;
    maps.heatmap[at(2, 5) * 17 + 6] = 0.7;
    maps.offset.set([0.25, 0.5], (at(2, 5) * 17 + 6) * 2);
    const points = readPose(maps);
    expect(points[18]).toBeCloseTo(5.5 / SIDE, 6);
    expect(points[19]).toBeCloseTo(2.25 / SIDE, 6);
    expect(points[20]).toBeCloseTo(0.7, 6);
  });

  test('of two likely places the one where the person’s middle expects the keypoint wins', () => {
    const maps = empty();
    maps.center[at(4, 4)] = 0.9;
    // The middle expects keypoint 0 three places up.
    maps.regression.set([-3, 0], at(4, 4) * 34);
    maps.heatmap[at(1, 4) * 17] = 0.5;
    maps.heatmap[at(7, 0) * 17] = 0.8;
    const points = readPose(maps);
    expect([points[0], points[1], points[2]].map((value) => Number(value!.toFixed(4)))).toEqual([
      4 / SIDE,
      1 / SIDE,
      0.5,
    ]);
  });
});
