import { mean, sampleCorrelation, standardDeviation } from 'simple-statistics';
import { quantileOf } from './robust.js';
import { indicesWithin, type Samples } from './samples.js';

/** An angle over time, degrees, where it was seen. */
export type AngleCurve = Pick<Samples, 'seconds' | 'values'>;

/** Something else that may show the same movement. */
export interface OtherAngle extends AngleCurve {
  /** How much it counts where it is fully in step. */
  readonly say: number;
  /** Of the angle's variance it shares at least so much, or has no say … */
  readonly leastSharedVariance: number;
  /** … and from here on its full say. */
  readonly fullSharedVariance: number;
}

/** Joints and limbs that are in step say of an angle what it says itself, as well as any other. */
export function inStep(curve: AngleCurve): OtherAngle {
  return { ...curve, say: 1, leastSharedVariance: 0.97, fullSharedVariance: 0.985 };
}

/** An angle's own say beside them: it rests on more keypoints than the lean of a limb, and is bent more. */
const OWN_SAY = 0.7;
/** The errors of an angle that changes less than this are too large a part of its way. */
const LEAST_RANGE_DEGREES = 20;
/** An angle has a say where it was seen in most of the frames. */
const LEAST_SEEN_SHARE = 0.9;
/** Two seconds of an ordinary film: over less, what never moves together may look as if it did. */
const LEAST_SAMPLES = 60;

/**
 * An angle over a stretch of film, steadied by others that move in step with it: the weighted mean of each sample and of
 * what those others, brought to the same middle and spread, show at that instant.
 *
 * Each angle's curve is bent in a way of its own that comes back with the pose, so that no smoothing lessens it; where
 * several joints and limbs make one movement together, their mean is bent less. What goes its own way, even a little,
 * has no say.
 *
 * @param samples an angle, degrees
 * @param others further angles of the same film
 * @param fromSeconds start of the stretch; samples outside it stay as they are
 * @returns the samples as they were where nothing moves in step
 */
export function steadiedByAngles<T extends Samples>(
  samples: T,
  others: readonly OtherAngle[],
  fromSeconds: number,
  toSeconds: number,
): T {
  const chosen = indicesWithin(samples, fromSeconds, toSeconds);
  if (chosen.length < LEAST_SAMPLES) return samples;
  const witnesses = others.flatMap((other) => witnessOf(samples, chosen, other) ?? []);
  if (witnesses.length === 0) return samples;
  const values = samples.values.slice();
  for (const index of chosen) {
    let [sum, say] = [OWN_SAY * samples.values[index]!, OWN_SAY];
    for (const { said, weight } of witnesses) {
      const value = said.get(index);
      if (value === undefined) continue;
      sum += weight * value;
      say += weight;
    }
    values[index] = sum / say;
  }
  return { ...samples, values };
}

/** What another angle says of an angle's samples, by their index, and how much that counts. */
interface Witness {
  readonly said: ReadonlyMap<number, number>;
  readonly weight: number;
}

function witnessOf(samples: Samples, chosen: readonly number[], other: OtherAngle): Witness | null {
  const shown = new Map<number, number>();
  other.seconds.forEach((at, index) => {
    shown.set(at, other.values[index]!);
  });
  const both = chosen.filter((index) => shown.has(samples.seconds[index]!));
  if (both.length < LEAST_SEEN_SHARE * chosen.length || both.length < LEAST_SAMPLES) return null;
  const angle = both.map((index) => samples.values[index]!);
  const otherAngle = both.map((index) => shown.get(samples.seconds[index]!)!);
  if (quantileOf(otherAngle, 0.95)! - quantileOf(otherAngle, 0.05)! < LEAST_RANGE_DEGREES) return null;
  const correlation = sampleCorrelation(otherAngle, angle);
  const { leastSharedVariance: least, fullSharedVariance: full } = other;
  const weight = other.say * Math.min(1, (correlation ** 2 - least) / (full - least));
  // Also where the correlation is not a number, since the angle stays where it is.
  if (!(weight > 0)) return null;
  // The reduced major axis: neither of the two is free of error.
  const slope = (Math.sign(correlation) * standardDeviation(angle)) / standardDeviation(otherAngle);
  const [angleMean, otherMean] = [mean(angle), mean(otherAngle)];
  const said = new Map(both.map((index, i) => [index, angleMean + slope * (otherAngle[i]! - otherMean)]));
  return { said, weight };
}
