import type { Samples } from '../../../core/motion/samples.js';

/** One move of a planned stroke: so many seconds to an angle, then so many seconds of stillness. */
export interface PlannedMove {
  readonly to: number;
  readonly seconds: number;
  readonly hold: number;
  readonly profile?: Profile;
}

/** Share of the way covered at a share of the time. */
export type Profile = (share: number) => number;

/** Minimum-jerk movement (Flash and Hogan 1985): 10u³ − 15u⁴ + 6u⁵. */
export const smoothProfile: Profile = (u) => 10 * u ** 3 - 15 * u ** 4 + 6 * u ** 5;

/** Constant speed between ramps of a tenth of the time. */
export const rampedProfile: Profile = (u) => {
  const ramp = 0.1;
  const full = 1 - ramp;
  if (u < ramp) return (0.5 * u * u) / ramp / full;
  if (u > 1 - ramp) return 1 - (0.5 * (1 - u) ** 2) / ramp / full;
  return (u - ramp / 2) / full;
};

export interface PlannedStroke {
  readonly from: number;
  readonly stillBefore: number;
  readonly moves: readonly PlannedMove[];
}

export function durationOf(stroke: PlannedStroke): number {
  return stroke.stillBefore + stroke.moves.reduce((sum, move) => sum + move.seconds + move.hold, 0);
}

export function angleAt(stroke: PlannedStroke, seconds: number): number {
  let level = stroke.from;
  let begin = stroke.stillBefore;
  for (const move of stroke.moves) {
    if (seconds <= begin) return level;
    if (seconds < begin + move.seconds) {
      return level + (move.to - level) * (move.profile ?? smoothProfile)((seconds - begin) / move.seconds);
    }
    level = move.to;
    begin += move.seconds + move.hold;
  }
  return level;
}

/** A repeatable stream of normal deviates (mulberry32 and Box–Muller). */
export function normalDeviates(seed: number): () => number {
  let state = seed >>> 0;
  const uniform = () => {
    state = (state + 0x6d2b79f5) >>> 0;
    let t = state;
    t = Math.imul(t ^ (t >>> 15), t | 1);
    t ^= t + Math.imul(t ^ (t >>> 7), t | 61);
    return (((t ^ (t >>> 14)) >>> 0) + 0.5) / 4294967296;
  };
  return () => Math.sqrt(-2 * Math.log(uniform())) * Math.cos(2 * Math.PI * uniform());
}

export interface Sampling {
  readonly framesPerSecond?: number;
  readonly noise?: number;
  readonly seed?: number;
  readonly fromSeconds?: number;
  readonly toSeconds?: number;
}

export function sample(stroke: PlannedStroke, sampling: Sampling = {}): Samples {
  const {
    framesPerSecond = 30,
    noise = 0,
    seed = 1,
    fromSeconds = 0,
    toSeconds = durationOf(stroke),
  } = sampling;
  const deviate = normalDeviates(seed);
  const first = Math.ceil(fromSeconds * framesPerSecond);
  const count = Math.max(0, Math.floor(toSeconds * framesPerSecond) - first + 1);
  const seconds = Float64Array.from({ length: count }, (_, i) => (first + i) / framesPerSecond);
  return {
    seconds,
    values: seconds.map((time) => angleAt(stroke, time) + noise * deviate()),
    standardErrors: new Float64Array(count).fill(Math.max(noise, 0.5)),
  };
}
