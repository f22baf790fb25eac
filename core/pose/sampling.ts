import { LIMB_ANGLE_COUNT, limbAngles } from './limbAngles.js';
import type { MeasuredFrame } from './measureFrames.js';
import type { Trail } from './sightings.js';
import { slopeOf, type TimedValue } from './slope.js';
import { trunkLength } from './trunkLength.js';

/**
 * Which frames to measure in `standard` quality: every one that could move a boundary.
 *
 * Cut out a little differently each time, frames have errors that change from one to the next, so each frame in and near a move says something new about where it begins and ends: with every
 * second one left out phase times differed by 0.046 s on average, with none but the edges measured by 0.05 s. What is
 * still for longer says the same again and again.
 */
export interface SamplingRules {
  /** How far around a stretch its decision looks, film seconds. */
  readonly reachSeconds: number;
  /**
   * Whether anything moves in a stretch or within reach of it, so that each of its frames counts. Also where too
   * little is seen to tell.
   *
   * @param measured frames in order of time, at least those within reach.
   */
  moves(measured: readonly MeasuredFrame[], fromSeconds: number, toSeconds: number): boolean;
}

/** Frame-to-frame noise of a keypoint in shares of the trunk's length, as seen with the larger MoveNet on rendered film. */
const KEYPOINT_NOISE = 0.013;
/** Where all points of a trunk fall together, its noise is not taken for none. */
const LEAST_TRUNK_PIXELS = 1;
/** The fit of a move draws on up to this much of the stillness beside it. */
const REACH_SECONDS = 1.5;
/** Degrees a second below which nobody would call a joint moving. */
const LEAST_SPEED = 4;
/** Degrees between two frames that are movement and no trembling. */
const LEAST_CHANGE = 5;
/** Standard errors that make a slope, or the largest difference of any two frames, more than noise. */
const CERTAIN_SLOPE = 3;
const CERTAIN_CHANGE = 5;
/** Joints that move less than this share of the joint that moves most do not decide. */
const LEAST_SHARE_OF_RANGE = 0.35;
const FEWEST_SIGHTINGS = 8;
const FEWEST_VALUES = 3;

/**
 * Rules for a lifter whose coarse sightings show which joints move in this film.
 *
 * @param slow film seconds for one real second; reach and speeds are meant in real time.
 */
export function samplingRules(lifter: Trail, slow: number): SamplingRules {
  const deciding = movingAngles(lifter);
  const reachSeconds = REACH_SECONDS * slow;
  return {
    reachSeconds,
    moves(measured, fromSeconds, toSeconds) {
      const tolerance = 1e-6;
      const near = measured.filter(
        ({ seconds }) =>
          seconds >= fromSeconds - reachSeconds - tolerance &&
          seconds <= toSeconds + reachSeconds + tolerance,
      );
      const all = angleCurves(near);
      return deciding.some((angle) => isMoving(all[angle]!, slow));
    },
  };
}

/** A quick move shows in the largest change, a slow one in the slope over the whole stretch. */
function isMoving(curve: readonly TimedValue[], slow: number): boolean {
  if (curve.length < FEWEST_VALUES) return true;
  const highest = curve.reduce((best, one) => (one.value > best.value ? one : best));
  const lowest = curve.reduce((best, one) => (one.value < best.value ? one : best));
  const error = Math.hypot(highest.standardError, lowest.standardError) / Math.SQRT2;
  if (highest.value - lowest.value > Math.max(CERTAIN_CHANGE * error, LEAST_CHANGE)) return true;
  const slope = slopeOf(curve);
  return (
    slope !== null &&
    Math.abs(slope.slope) > Math.max(CERTAIN_SLOPE * slope.standardError, LEAST_SPEED / slow)
  );
}

/** The angles that move most in the coarse pass; all of them where it saw too little. */
function movingAngles(lifter: Trail): readonly number[] {
  const every = Array.from({ length: LIMB_ANGLE_COUNT }, (_, angle) => angle);
  const curves = angleCurves(lifter);
  const ranges = curves.map((curve) => {
    if (curve.length < FEWEST_SIGHTINGS) return 0;
    const sorted = curve.map((one) => one.value).sort((a, b) => a - b);
    return sorted[Math.floor(0.9 * (sorted.length - 1))]! - sorted[Math.ceil(0.1 * (sorted.length - 1))]!;
  });
  const largest = Math.max(...ranges);
  return largest === 0 ? every : every.filter((angle) => ranges[angle]! >= LEAST_SHARE_OF_RANGE * largest);
}

/** Every limb angle over time, only where it was seen. */
function angleCurves(
  measured: readonly { readonly seconds: number; readonly points: Float32Array }[],
): readonly (readonly TimedValue[])[] {
  const curves: TimedValue[][] = Array.from({ length: LIMB_ANGLE_COUNT }, () => []);
  for (const { seconds, points } of measured) {
    limbAngles(points, KEYPOINT_NOISE * Math.max(LEAST_TRUNK_PIXELS, trunkLength(points))).forEach(
      (angle, index) => {
        if (angle === null) return;
        curves[index]!.push({ seconds, value: angle.degrees, standardError: angle.standardError });
      },
    );
  }
  return curves;
}
