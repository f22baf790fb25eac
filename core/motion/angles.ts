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
