import { describe, expect, test } from 'vitest';
import { compareBouts } from '../../../analysis/trends/compareBouts.js';
import { score, times } from '../scoring/syntheticBout.js';

const boutOf = (contracted: number, eccentric = 3) =>
  score([{ exercise: 'single-arm-row', reps: times(6, { contracted, eccentric }) }]).bouts[0]!;

describe('two sets rep by rep', () => {
  // The error that all reps of a set share is at least 11° of range: analysis/scoring/symmetry.ts says where from.
  test('a rep’s range is told apart only beyond the error its whole set shares', () => {
    const { reps, whole } = compareBouts(boutOf(90), boutOf(97));
    expect(whole.find((one) => one.measure === 'range')?.told).toBe(false);
    expect(reps.map((rep) => rep.range.told)).toEqual(Array(6).fill(false));
    for (const { range } of reps)
      expect(range.difference?.uncertainty).toBeGreaterThanOrEqual(Math.hypot(11, 11));
    expect(compareBouts(boutOf(90), boutOf(120)).reps.every((rep) => rep.range.told)).toBe(true);
  });

  test('longer lowerings are told in every rep and as a whole', () => {
    const { reps, whole } = compareBouts(boutOf(90, 2), boutOf(90, 4));
    expect(reps.every((rep) => rep.eccentric.told)).toBe(true);
    expect(whole.find((one) => one.measure === 'eccentric-seconds')?.told).toBe(true);
  });
});
