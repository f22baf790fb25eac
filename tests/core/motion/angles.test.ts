import { describe, expect, it } from 'vitest';
import { angleBetweenDegrees, toDegrees, toRadians, turnDegrees } from '../../../core/motion/angles.js';
import { apparentShare } from '../../../core/motion/depth.js';
import { type Points, propagatedError } from '../../../core/motion/seenFrames.js';
import { angleBetween } from '../../../core/pose/limbAngles.js';

const at = (x: number, y: number) => ({ x, y });
const from = (a: Point, b: Point) => at(b.x - a.x, b.y - a.y);

interface Point {
  readonly x: number;
  readonly y: number;
}

describe('interior angles (plane geometry; values computed independently with scipy)', () => {
  it.each([
    [at(0, 3), at(0, 0), at(4, 0), 90],
    [at(1, 0), at(0, 0), at(0.5, Math.sqrt(3) / 2), 60],
    [at(-1, 0), at(0, 0), at(5, 0), 180],
    [at(1, 0), at(0, 0), at(-1, 1), 135],
    [at(100, 100), at(100, 200), at(170.7106781, 129.2893219), 45],
    [at(0, 0), at(100, 0), at(200, 0.001), 179.999427042205],
  ])('at %j, %j, %j', (a, vertex, b, degrees) => {
    expect(angleBetweenDegrees(from(vertex, a), from(vertex, b))).toBeCloseTo(degrees, 6);
    // Flexion by the neutral-zero method: 0° where the joint's two lines are in line.
    expect(angleBetweenDegrees(from(a, vertex), from(vertex, b))).toBeCloseTo(180 - degrees, 6);
  });

  it('is not a number for a segment without length', () => {
    expect(angleBetweenDegrees(at(0, 0), at(1, 1))).toBeNaN();
  });

  it('reads a right angle in space that the picture shows as 0°', () => {
    expect(angleBetweenDegrees({ x: 1, y: 0, z: 1 }, { x: 1, y: 0, z: -1 })).toBeCloseTo(90, 10);
  });
});

describe('signed turn', () => {
  it('is positive clockwise as seen on a picture whose y points down', () => {
    expect(turnDegrees(at(1, 0), at(0, 1))).toBeCloseTo(90, 10);
    expect(turnDegrees(at(1, 0), at(0, -1))).toBeCloseTo(-90, 10);
  });
});

describe('law of cosines (values computed independently with scipy)', () => {
  it.each([
    [6, 3, 4, 117.279612735978],
    [7, 8, 9, 48.189685104221],
    [8, 7, 9, 58.411864494799],
    [9, 7, 8, 73.3984504009777],
  ])('the angle opposite %d beside %d and %d', (opposite, first, second, degrees) => {
    // The corner in the origin, one side along x, the other where the two circles around its ends meet.
    const x = (first ** 2 + second ** 2 - opposite ** 2) / (2 * first);
    const corner = at(x, Math.sqrt(second ** 2 - x ** 2));
    expect(angleBetweenDegrees(at(first, 0), corner)).toBeCloseTo(degrees, 9);
  });
});

describe('foreshortening in parallel projection (values computed independently with scipy)', () => {
  it.each([
    [10, 0.984808],
    [15, 0.965926],
    [20, 0.939693],
    [30, 0.866025],
    [45, Math.SQRT1_2],
    [60, 0.5],
  ])('a horizontal segment %d° off keeps %d of its length', (off, ratio) => {
    expect(apparentShare(0, off)).toBeCloseTo(ratio, 6);
    expect(apparentShare(90, off)).toBeCloseTo(1, 12);
  });

  it.each([
    [0.9, 25.841932763],
    [0.8, 36.869897646],
    [0.7, 45.572995999],
  ])('a ratio of %d is %d° out of the plane', (ratio, degrees) => {
    expect(apparentShare(0, degrees)).toBeCloseTo(ratio, 10);
  });

  /** Both lines in a vertical plane turned `off` from the picture plane. */
  const projected = (firstDegrees: number, secondDegrees: number, off: number) => {
    const line = (degrees: number) =>
      at(Math.cos(toRadians(degrees)) * Math.cos(toRadians(off)), -Math.sin(toRadians(degrees)));
    return angleBetweenDegrees(line(firstDegrees), line(secondDegrees));
  };

  it.each([
    [90, [91.9859, 98.2132, 109.4712, 126.8699]],
    [60, [61.735, 67.3801, 78.463, 98.2132]],
    [120, [121.7051, 126.8699, 135.5847, 147.7958]],
  ])('an interior angle of %d° about a horizontal bisector reads shallower', (interior, readings) => {
    [15, 30, 45, 60].forEach((off, index) => {
      expect(projected(interior / 2, -interior / 2, off)).toBeCloseTo(readings[index]!, 4);
      const formula = 2 * Math.atan(Math.tan(toRadians(interior / 2)) / Math.cos(toRadians(off)));
      expect(toDegrees(formula)).toBeCloseTo(readings[index]!, 4);
    });
  });

  it.each([
    [135, [135.993, 139.1066, 144.7356, 153.4349]],
    [90, [90, 90, 90, 90]],
    [45, [44.007, 40.8934, 35.2644, 26.5651]],
  ])('an interior angle of %d° at the elbow under a hanging upper arm', (interior, readings) => {
    [15, 30, 45, 60].forEach((off, index) => {
      expect(projected(90, 90 - interior, off)).toBeCloseTo(readings[index]!, 4);
    });
  });
});

describe('error of an angle from the errors of its points', () => {
  it.each([
    [45, 2.764],
    [90, 3.4377],
    [135, 3.9996],
    [170, 4.1997],
  ])(
    'at %d° with segments of 100 and errors of 3 pixels (first order, checked by Monte Carlo)',
    (interior, error) => {
      const other = at(100 * Math.cos(toRadians(interior)), 100 * Math.sin(toRadians(interior)));
      const line = ({ x, y }: Point) => ({ right: x, down: y });
      expect(angleBetween(line(at(100, 0)), line(other), 3)!.standardError).toBeCloseTo(error, 3);

      const points: Points = { x: Float64Array.of(100, 0, other.x), y: Float64Array.of(0, 0, other.y) };
      const point = ({ x, y }: Points, index: number) => at(x[index]!, y[index]!);
      const angle = (all: Points) =>
        angleBetweenDegrees(from(point(all, 1), point(all, 0)), from(point(all, 1), point(all, 2)));
      expect(propagatedError([0, 1, 2], points, () => 3, 100, angle)).toBeCloseTo(error, 3);
    },
  );
});
