import { KEYPOINT_COUNT } from '../pose/keypoints.js';
import type { Vector } from './angles.js';
import type { AngleCurve } from './anglesInStep.js';
import type { Body } from './body.js';
import { median, quantileOf } from './robust.js';

/** Frames count for an end of the range while the angle is within this share of it. */
const END_SHARE = 0.1;
/** A keypoint seen in fewer frames than this at either end is taken for not seen there. */
const FEWEST_AT_END = 5;

/** The angle at both ends of its range, degrees. */
export interface Range {
  readonly low: number;
  readonly high: number;
}

/** A stretch of film. */
export interface Stretch {
  readonly fromSeconds: number;
  readonly toSeconds: number;
}

/** Null where the angle does not change. */
export function rangeWithin(angle: AngleCurve, { fromSeconds, toSeconds }: Stretch): Range | null {
  const within = Array.from(angle.values).filter((_, index) => {
    const at = angle.seconds[index]!;
    return at >= fromSeconds && at <= toSeconds;
  });
  const [low, high] = [quantileOf(within, 0.05), quantileOf(within, 0.95)];
  return low === null || high === null || high <= low ? null : { low, high };
}

export function framesWithin(body: Body, { fromSeconds, toSeconds }: Stretch): readonly number[] {
  return Array.from({ length: body.frames }, (_, frame) => frame).filter(
    (frame) => body.seconds[frame]! >= fromSeconds && body.seconds[frame]! <= toSeconds,
  );
}

interface FramesAtEnds {
  readonly low: readonly number[];
  readonly high: readonly number[];
}

function framesAtEnds(body: Body, angle: AngleCurve, { low, high }: Range, stretch: Stretch): FramesAtEnds {
  const margin = END_SHARE * (high - low);
  const valueAt = new Map(Array.from(angle.seconds, (at, index) => [at, angle.values[index]!]));
  const frames = framesWithin(body, stretch);
  const where = (holds: (value: number) => boolean) =>
    frames.filter((frame) => {
      const value = valueAt.get(body.seconds[frame]!);
      return value !== undefined && holds(value);
    });
  return { low: where((value) => value < low + margin), high: where((value) => value > high - margin) };
}

/** Where a keypoint is at both ends of the range, pixels. */
export interface KeypointEnds {
  readonly keypoint: number;
  readonly low: Vector;
  readonly high: Vector;
}

/** By keypoint; those not seen well enough at both ends are left out. */
export type Ends = ReadonlyMap<number, KeypointEnds>;

export function endsOfKeypoints(body: Body, angle: AngleCurve, range: Range, stretch: Stretch): Ends {
  const frames = framesAtEnds(body, angle, range, stretch);
  const ends = new Map<number, KeypointEnds>();
  for (let keypoint = 0; keypoint < KEYPOINT_COUNT; keypoint++) {
    const low = middleOf(body, keypoint, frames.low);
    const high = middleOf(body, keypoint, frames.high);
    if (low !== null && high !== null) ends.set(keypoint, { keypoint, low, high });
  }
  return ends;
}

function middleOf(body: Body, keypoint: number, frames: readonly number[]): Vector | null {
  const seen = frames.map((frame) => frame * KEYPOINT_COUNT + keypoint).filter((at) => body.seen[at] === 1);
  if (seen.length < FEWEST_AT_END) return null;
  return { x: median(seen.map((at) => body.x[at]!))!, y: median(seen.map((at) => body.y[at]!))! };
}

/** The same in a picture that is wider by a factor. */
export function stretched(ends: Ends, sidewaysStretch: number): Ends {
  const wider = ({ x, y }: Vector) => ({ x: sidewaysStretch * x, y });
  return new Map(
    [...ends].map(([keypoint, { low, high }]) => [
      keypoint,
      { keypoint, low: wider(low), high: wider(high) },
    ]),
  );
}
