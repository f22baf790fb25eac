import { KEYPOINT_INDEX } from './keypoints.js';
import { LIMB_ANGLE_COUNT, limbAngles } from './limbAngles.js';
import type { MeasuredFrame } from './measureFrames.js';
import type { Trail } from './sightings.js';
import { isEdge, slopeOf, slopesAround, type TimedValue } from './speedChange.js';

/**
 * Which frames to measure in `standard` quality. What matters is when movement begins, ends or changes its speed:
 * there every frame counts. In a still hold nothing changes, and along an even move few points fix the line.
 */
export interface SamplingRules {
  /** Whether a stretch moves at all, so that it deserves a point in between. */
  moves(measured: readonly MeasuredFrame[], fromSeconds: number, toSeconds: number): boolean;
  /** Whether the speed changes in a stretch, so that each of its frames could move a boundary. */
  changesSpeed(measured: readonly MeasuredFrame[], fromSeconds: number, toSeconds: number): boolean;
}

/** Frame-to-frame noise of a keypoint in shares of the trunk's length, as seen with the larger MoveNet on film. */
const KEYPOINT_NOISE = 0.012;
/**
 * Movement and change of speed are judged over these spans on either side, seconds: the shorter finds the edges of
 * quick moves, the longer those of moves so slow that the noise hides them in half a second.
 */
const JUDGED_SPANS_SECONDS = [0.5, 1] as const;
/** An edge is looked for where the change of speed is this share of the largest within this time. */
const LEAST_SHARE_OF_LARGEST_CHANGE = 0.75;
const NEIGHBOURHOOD_SECONDS = 0.4;
/** Degrees a second below which nobody would call a joint moving. */
const LEAST_SPEED = 4;
const LEAST_SPEED_CHANGE = 8;
/** Standard errors that make a movement, or a change of speed, more than noise. */
const CERTAIN_MOVEMENT = 2.5;
const CERTAIN_CHANGE = 3;
/** Joints that move less than this share of the joint that moves most do not decide. */
const LEAST_SHARE_OF_RANGE = 0.35;
const FEWEST_SIGHTINGS = 8;

/**
 * Rules for a lifter whose coarse sightings show which joints move in this film.
 *
 * @param slow film seconds for one real second; spans and speeds are meant in real time.
 */
export function samplingRules(lifter: Trail, slow: number): SamplingRules {
  const deciding = movingAngles(lifter);
  const span = JUDGED_SPANS_SECONDS[0] * slow;
  const curves = (measured: readonly MeasuredFrame[]) => {
    const all = angleCurves(measured);
    return deciding.map((angle) => all[angle]!);
  };
  return {
    moves: (measured, fromSeconds, toSeconds) =>
      curves(measured).some((curve) => {
        const slope = slopeOf(
          curve.filter((one) => one.seconds >= fromSeconds - span && one.seconds <= toSeconds + span),
        );
        return (
          slope !== null &&
          Math.abs(slope.slope) > Math.max(CERTAIN_MOVEMENT * slope.standardError, LEAST_SPEED / slow)
        );
      }),
    changesSpeed: (measured, fromSeconds, toSeconds) =>
      curves(measured).some((curve) => {
        // The longer span blurs where an edge is: it is asked only where the shorter one finds none nearby.
        for (const span of JUDGED_SPANS_SECONDS) {
          const found = edgeIn(curve, fromSeconds, toSeconds, span * slow, slow);
          if (found !== 'none nearby') return found === 'here';
        }
        return false;
      }),
  };
}

/**
 * Where an edge of a movement lies: in this stretch, in its neighbourhood, or nowhere near. It is taken to lie where
 * the change of speed is a good part of the largest in the neighbourhood.
 */
function edgeIn(
  curve: readonly TimedValue[],
  fromSeconds: number,
  toSeconds: number,
  span: number,
  slow: number,
): 'here' | 'nearby' | 'none nearby' {
  const rules = { certainty: CERTAIN_CHANGE, leastChange: LEAST_SPEED_CHANGE / slow };
  const usual = highestSpeed(curve, span);
  const middle = (fromSeconds + toSeconds) / 2;
  const changes = Array.from({ length: 9 }, (_, step) => {
    const away = ((step - 4) / 4) * NEIGHBOURHOOD_SECONDS * slow;
    const around = slopesAround(curve, middle + away, span);
    return around !== null && isEdge(around, usual, rules)
      ? Math.abs(around.after.slope - around.before.slope)
      : 0;
  });
  const largest = Math.max(...changes);
  if (largest === 0) return 'none nearby';
  return Math.max(...changes.slice(3, 6)) >= LEAST_SHARE_OF_LARGEST_CHANGE * largest ? 'here' : 'nearby';
}

/** The highest speed over a span, anywhere among the values. */
function highestSpeed(curve: readonly TimedValue[], span: number): number {
  const speeds = curve.map((start) => {
    const slope = slopeOf(
      curve.filter((one) => one.seconds >= start.seconds && one.seconds <= start.seconds + span + 1e-6),
    );
    return slope === null ? 0 : Math.max(0, Math.abs(slope.slope) - slope.standardError);
  });
  return Math.max(0, ...speeds);
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
    limbAngles(points, KEYPOINT_NOISE * trunkLength(points)).forEach((angle, index) => {
      if (angle === null) return;
      curves[index]!.push({ seconds, value: angle.degrees, standardError: angle.standardError });
    });
  }
  return curves;
}

function trunkLength(points: Float32Array): number {
  const middle = (part: 'shoulder' | 'hip', axis: 0 | 1) =>
    (points[KEYPOINT_INDEX[`left-${part}`] * 3 + axis]! +
      points[KEYPOINT_INDEX[`right-${part}`] * 3 + axis]!) /
    2;
  return Math.max(
    1,
    Math.hypot(middle('shoulder', 0) - middle('hip', 0), middle('shoulder', 1) - middle('hip', 1)),
  );
}
