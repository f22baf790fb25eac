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

  test('places beside the likeliest one have a say by their looks', () => {
    const maps = empty();
    maps.center[at(4, 3)] = 0.9;
    // The middle expects keypoint 6 right between two places, so that distance favours neither.
    maps.regression.set([-2, 1.5], (at(4, 3) * 17 + 6) * 2);
    maps.heatmap[at(2, 4) * 17 + 6] = 0.8;
    maps.heatmap[at(2, 5) * 17 + 6] = 0.2;
    maps.offset.set([0.5, 0.5], (at(2, 4) * 17 + 6) * 2);
    maps.offset.set([0.1, -0.1], (at(2, 5) * 17 + 6) * 2);
    // One vote for (4.5, 2.5), and (0.2 / 0.8)^1.5 = 1/8 of one for (4.9, 2.1).
    const [x, y, score] = readPose(maps).slice(18, 21);
    expect(x).toBeCloseTo((4.5 + 4.9 / 8) / 1.125 / SIDE, 6);
    expect(y).toBeCloseTo((2.5 + 2.1 / 8) / 1.125 / SIDE, 6);
    expect(score).toBeCloseTo(0.8, 6);
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
