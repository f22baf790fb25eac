import { expect, test } from 'vitest';
import { angleBetween, limbAngles } from '../../../core/pose/limbAngles.js';
import { person } from './inventedPeople.js';

const pointing = (degrees: number, length: number) => ({
  right: length * Math.cos((degrees * Math.PI) / 180),
  down: length * Math.sin((degrees * Math.PI) / 180),
});

// First-order propagation of independent keypoint errors; 3 pixels, segments of 100 pixels. Computed with numpy and
// confirmed there by simulation (200 000 draws: 2.766, 3.443, 3.993).
test.each([
  [45, 2.764],
  [90, 3.4377],
  [135, 3.9996],
  [170, 4.1997],
])('the error of an angle of %d° is %d°', (degrees, expected) => {
  const angle = angleBetween(pointing(0, 100), pointing(degrees, 100), 3)!;
  expect(angle.degrees).toBeCloseTo(degrees, 6);
  expect(angle.standardError).toBeCloseTo(expected, 3);
});

// Right triangle with sides 3, 4, 5 and the law of cosines for 7, 8, 9: arccos((7² + 8² − 9²) / (2 · 7 · 8)).
test('angles of known triangles', () => {
  expect(angleBetween({ right: 0, down: 3 }, { right: 4, down: 0 }, 1)!.degrees).toBeCloseTo(90, 9);
  expect(angleBetween(pointing(0, 7), pointing(73.398450400978, 8), 1)!.degrees).toBeCloseTo(
    73.398450400978,
    9,
  );
});

test('an angle without one of its keypoints is not given', () => {
  const points = person({ x: 100, feetY: 400, height: 300 });
  expect(limbAngles(points, 1).every((angle) => angle !== null)).toBe(true);
  points[9 * 3 + 2] = 0.1; // left wrist
  expect(limbAngles(points, 1).map((angle) => angle === null)).toEqual([true, ...Array(7).fill(false)]);
  expect(angleBetween({ right: 0, down: 0 }, { right: 1, down: 0 }, 1)).toBeNull();
});
