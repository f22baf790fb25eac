import { shownValueAt } from './fitMove.js';
import type { MoveLook } from './refineMove.js';
import type { WanderingNoise } from './wanderingNoise.js';

/** A fit takes up about this many independent errors. */
const ERRORS_TAKEN_UP = 4;
/** What is known of the wandering noise beforehand counts as much as this many independent errors. */
const KNOWN_ERRORS = 5;
/** Hitches and odd shapes are left over too; beyond this many times the usual deviation it is not noise. */
const MOST_OVER_USUAL = 2;

/** The wandering noise, from what the likeliest shapes of a bout's moves leave over. */
export function wanderSeen(looks: readonly MoveLook[], usual: WanderingNoise): WanderingNoise {
  let sum = KNOWN_ERRORS * usual.deviation ** 2;
  let count = KNOWN_ERRORS;
  for (const { samples, weights, fits } of looks) {
    const best = fits[0];
    if (best === undefined) continue;
    const seconds = samples.seconds[samples.seconds.length - 1]! - samples.seconds[0]!;
    const errors = seconds / (2 * usual.seconds);
    if (errors <= ERRORS_TAKEN_UP) continue;
    let squares = 0;
    let total = 0;
    for (let i = 0; i < samples.seconds.length; i++) {
      squares += weights[i]! * (samples.values[i]! - shownValueAt(best.move, samples.seconds[i]!)) ** 2;
      total += weights[i]!;
    }
    // Of the squares, 1 a sample is the part of the noise that is new in every frame.
    const variance = Math.min(
      (MOST_OVER_USUAL * usual.deviation) ** 2,
      Math.max(0, (squares - samples.seconds.length) / total),
    );
    sum += variance * errors;
    count += errors - ERRORS_TAKEN_UP;
  }
  return { ...usual, deviation: Math.sqrt(sum / count) };
}
