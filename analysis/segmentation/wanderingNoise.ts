/**
 * How the error of an angle runs through time: a part that is new in every frame, and a part that wanders, since a
 * pose model misplaces a joint in much the same way in frames that look much the same. Treating the second like the
 * first would take a drift of the model for a movement of the lifter.
 */
export interface WanderingNoise {
  /** Standard deviation of the wandering part, in the unit of the samples. */
  readonly deviation: number;
  /** After this time a wandering error has fallen to 1/e, seconds. */
  readonly seconds: number;
}

/**
 * The wandering part in the angles of rendered films whose frames were cut out variously (`core/pose/variedRegion.ts`):
 * about 0.9° whatever the light, plus six tenths of the part that is new in every frame; a fifth of a second later a
 * third of it is left. Of values tried on the films tuned on, these erred least and kept the ± honest.
 */
const LEAST_DEVIATION_DEGREES = 0.9;
const DEVIATION_RATIO = 0.6;
const LEAST_NEW_DEGREES = 0.3;
const WANDER_SECONDS = 0.2;

/** The wandering part of a joint angle's error, from the deviation of the part that is new in every frame, degrees. */
export function wanderOf(newDegrees: number): WanderingNoise {
  const deviation = Math.hypot(
    LEAST_DEVIATION_DEGREES,
    DEVIATION_RATIO * Math.max(LEAST_NEW_DEGREES, newDegrees),
  );
  return { deviation, seconds: WANDER_SECONDS };
}

/** Turns samples whose errors wander into as many whose errors are independent and of standard deviation 1. */
export interface Whitening {
  apply(values: Float64Array): Float64Array;
}

/**
 * The innovations of a Kalman filter for a first-order autoregressive error (Ornstein–Uhlenbeck process) plus
 * independent errors, at irregular times; linear in the samples, so that it can be applied to a model's curves too.
 *
 * @param weights 1 / variance of the independent part of each sample
 */
export function whitening(seconds: Float64Array, weights: Float64Array, noise: WanderingNoise): Whitening {
  const count = seconds.length;
  const carry = new Float64Array(count);
  const gain = new Float64Array(count);
  const scale = new Float64Array(count);
  const usual = noise.deviation ** 2;
  let variance = usual;
  for (let i = 0; i < count; i++) {
    carry[i] = i === 0 ? 0 : Math.exp(-(seconds[i]! - seconds[i - 1]!) / noise.seconds);
    const before = carry[i]! ** 2 * variance + usual * (1 - carry[i]! ** 2);
    const total = before + 1 / weights[i]!;
    gain[i] = before / total;
    scale[i] = 1 / Math.sqrt(total);
    variance = before * (1 - gain[i]!);
  }
  return {
    apply(values) {
      const whitened = new Float64Array(count);
      let error = 0;
      for (let i = 0; i < count; i++) {
        const expected = carry[i]! * error;
        const surprise = values[i]! - expected;
        whitened[i] = surprise * scale[i]!;
        error = expected + gain[i]! * surprise;
      }
      return whitened;
    },
  };
}
