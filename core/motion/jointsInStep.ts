import { mean, sampleCorrelation, standardDeviation } from 'simple-statistics';
import { quantileOf } from './robust.js';
import { indicesWithin, type Samples } from './samples.js';

/** Of an angle's variance, a joint that moves in step with it shares at least so much … */
const LEAST_SHARED_VARIANCE = 0.97;
/** … and from here on what it says counts as much as the angle itself. */
const FULL_SHARED_VARIANCE = 0.985;
/** The errors of a joint that moves less than this are too large a part of its way. */
const LEAST_RANGE_DEGREES = 20;
/** A joint has a say where it was seen in most of the frames. */
const LEAST_SEEN_SHARE = 0.9;
/** Two seconds of an ordinary film: over less, joints that never move together may look as if they did. */
const LEAST_SAMPLES = 60;

/**
 * An angle over a stretch of film, steadied by joints that move in step with it: the weighted mean of each sample and of
 * what those joints, brought to the same middle and spread, show at that instant.
 *
 * Seen obliquely, each joint's curve is bent in a way of its own that comes back with the pose, so that no smoothing
 * lessens it; where several joints make one movement together, their mean is bent less. A joint that goes its own way,
 * even a little, has no say.
 *
 * @param samples an angle, degrees
 * @param others further joint angles of the same film, degrees
 * @param fromSeconds start of the stretch; samples outside it stay as they are
 * @returns the samples as they were where no joint moves in step
 */
export function steadiedByJoints<T extends Samples>(
  samples: T,
  others: readonly Samples[],
  fromSeconds: number,
  toSeconds: number,
): T {
  const chosen = indicesWithin(samples, fromSeconds, toSeconds);
  if (chosen.length < LEAST_SAMPLES) return samples;
  const witnesses = others.flatMap((other) => witnessOf(samples, chosen, other) ?? []);
  if (witnesses.length === 0) return samples;
  const values = samples.values.slice();
  for (const index of chosen) {
    let [sum, say] = [samples.values[index]!, 1];
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

/** What another joint says of an angle's samples, by their index, and how much that counts beside the angle's own say of 1. */
interface Witness {
  readonly said: ReadonlyMap<number, number>;
  readonly weight: number;
}

function witnessOf(samples: Samples, chosen: readonly number[], other: Samples): Witness | null {
  const shown = new Map<number, number>();
  other.seconds.forEach((at, index) => {
    shown.set(at, other.values[index]!);
  });
  const both = chosen.filter((index) => shown.has(samples.seconds[index]!));
  if (both.length < LEAST_SEEN_SHARE * chosen.length || both.length < LEAST_SAMPLES) return null;
  const angle = both.map((index) => samples.values[index]!);
  const joint = both.map((index) => shown.get(samples.seconds[index]!)!);
  if (quantileOf(joint, 0.95)! - quantileOf(joint, 0.05)! < LEAST_RANGE_DEGREES) return null;
  const correlation = sampleCorrelation(joint, angle);
  const weight = (correlation ** 2 - LEAST_SHARED_VARIANCE) / (FULL_SHARED_VARIANCE - LEAST_SHARED_VARIANCE);
  // Also where the correlation is not a number, since the angle stays where it is.
  if (!(weight > 0)) return null;
  // The reduced major axis: neither of the two is free of error.
  const slope = (Math.sign(correlation) * standardDeviation(angle)) / standardDeviation(joint);
  const [angleMean, jointMean] = [mean(angle), mean(joint)];
  const said = new Map(both.map((index, i) => [index, angleMean + slope * (joint[i]! - jointMean)]));
  return { said, weight: Math.min(1, weight) };
}
