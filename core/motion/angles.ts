const DEGREES_PER_RADIAN = 180 / Math.PI;

/** A direction and length in picture pixels (x right, y down), with a depth where one is known (away from the camera). */
export interface Vector {
  readonly x: number;
  readonly y: number;
  readonly z?: number;
}

export function toDegrees(radians: number): number {
  return radians * DEGREES_PER_RADIAN;
}

export function toRadians(degrees: number): number {
  return degrees / DEGREES_PER_RADIAN;
}

/**
 * Angle between two directions, 0 to 180 degrees, in the plane or in space.
 *
 * Uses atan2(|u × v|, u · v), which keeps its precision near 0° and 180° where an arc cosine loses it.
 * Not a number when a vector has no length.
 */
export function angleBetweenDegrees(u: Vector, v: Vector): number {
  const uz = u.z ?? 0;
  const vz = v.z ?? 0;
  const cross = Math.hypot(u.y * vz - uz * v.y, uz * v.x - u.x * vz, u.x * v.y - u.y * v.x);
  const dot = u.x * v.x + u.y * v.y + uz * vz;
  if (cross === 0 && dot === 0) return Number.NaN;
  return toDegrees(Math.atan2(cross, dot));
}

/**
 * Turn from `u` to `v` within the picture, more than -180 to 180 degrees; clockwise as seen is positive, since
 * y points down.
 */
export function turnDegrees(u: Vector, v: Vector): number {
  const cross = u.x * v.y - u.y * v.x;
  const dot = u.x * v.x + u.y * v.y;
  if (cross === 0 && dot === 0) return Number.NaN;
  return toDegrees(Math.atan2(cross, dot));
}

/** Interior angle at `vertex` between the points `a` and `b`, 0 to 180 degrees. */
export function interiorAngleDegrees(a: Vector, vertex: Vector, b: Vector): number {
  return angleBetweenDegrees(subtract(a, vertex), subtract(b, vertex));
}

/** Flexion by the neutral-zero method of a hinge joint: 0° in line, growing as the joint bends. */
export function flexionDegrees(proximal: Vector, joint: Vector, distal: Vector): number {
  return angleBetweenDegrees(subtract(joint, proximal), subtract(distal, joint));
}

/**
 * Interior angle opposite the side `opposite` of a triangle, by the law of cosines; degrees.
 * Not a number where the three lengths form no triangle.
 */
export function angleOfTriangleDegrees(opposite: number, first: number, second: number): number {
  return toDegrees(Math.acos((first * first + second * second - opposite * opposite) / (2 * first * second)));
}

/**
 * Length in the picture of a segment of length 1 that rises `elevationDegrees` above the horizontal in a vertical
 * plane turned `degreesOff` from the picture plane (parallel projection).
 */
export function projectedLength(elevationDegrees: number, degreesOff: number): number {
  const elevation = toRadians(elevationDegrees);
  return Math.hypot(Math.cos(elevation) * Math.cos(toRadians(degreesOff)), Math.sin(elevation));
}

/** Angle by which a segment leaves the picture plane, from its length in the picture over its own (0 to 1); degrees. */
export function degreesOutOfPlane(lengthRatio: number): number {
  return toDegrees(Math.acos(Math.min(1, Math.max(0, lengthRatio))));
}

export interface JointNoise {
  /** Lengths of the two segments, pixels. */
  readonly firstLength: number;
  readonly secondLength: number;
  readonly interiorDegrees: number;
  /** Standard errors of the three points in each coordinate, pixels. */
  readonly first: number;
  readonly vertex: number;
  readonly second: number;
}

/**
 * Standard error of an interior angle from isotropic, independent errors of its three points, to first order:
 * each end turns its segment by error over length, and the vertex turns both, in part together.
 */
export function angleStandardErrorDegrees(noise: JointNoise): number {
  const a = 1 / noise.firstLength;
  const b = 1 / noise.secondLength;
  const shared = a * a + b * b - 2 * a * b * Math.cos(toRadians(noise.interiorDegrees));
  return toDegrees(
    Math.sqrt((noise.first * a) ** 2 + (noise.second * b) ** 2 + noise.vertex * noise.vertex * shared),
  );
}

function subtract(a: Vector, b: Vector): Vector {
  return { x: a.x - b.x, y: a.y - b.y, z: (a.z ?? 0) - (b.z ?? 0) };
}
