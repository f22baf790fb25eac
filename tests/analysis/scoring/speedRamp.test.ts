import { describe, expect, test } from 'vitest';
import { looksRamped } from '../../../analysis/scoring/speedRamp.js';
import { type RepPlan, score, times } from './syntheticBout.js';

const rep = (factor: number, eccentric = 2, concentric = 1): RepPlan => ({
  eccentric: eccentric * factor,
  concentric: concentric * factor,
});
const ramped = (reps: readonly RepPlan[]) =>
  looksRamped(score([{ exercise: 'curl', reps, side: 'both' }]).bouts[0]!);

describe('slow motion that became part of the film', () => {
  test('the middle of the set four times as slow, with reps inside the ramps', () => {
    expect(ramped([rep(1), rep(1.1), rep(2.2), rep(4), rep(4.2), rep(3.9), rep(2), rep(1), rep(0.9)])).toBe(
      true,
    );
  });

  test('a set that begins slowly because the phone slowed its start', () => {
    expect(ramped([rep(8), rep(8), rep(1), rep(1), rep(1)])).toBe(true);
  });

  test.each<[string, readonly RepPlan[]]>([
    ['an even set', times(8, rep(1))],
    ['a set that slows down as it gets hard', Array.from({ length: 8 }, (_, index) => rep(1 + index * 0.15))],
    ['lifts that grind to a halt while lowerings stay', [...times(5, rep(1)), rep(1, 2, 4), rep(1, 2, 5)]],
    [
      'slow lowerings after quick ones, with the same lift',
      [...times(4, rep(1, 1, 1)), ...times(4, rep(1, 5, 1))],
    ],
    ['one odd rep', [...times(4, rep(1)), rep(4), ...times(4, rep(1))]],
    ['slow and quick reps in turn', [rep(1), rep(4), rep(1), rep(4), rep(1), rep(4)]],
    ['two reps', [rep(1), rep(4)]],
  ])('not: %s', (_name, reps) => {
    expect(ramped(reps)).toBe(false);
  });
});
