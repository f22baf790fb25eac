import { describe, expect, test } from 'vitest';
import { CATALOGUE } from '../../../analysis/exercises/catalogue.js';
import { FEATURE_NAMES } from '../../../analysis/recognition/features.js';
import { likelihoods } from '../../../analysis/recognition/likelihood.js';
import { PROFILE_ROWS } from '../../../analysis/recognition/profiles.js';

const usual = (wanted: string) => {
  const [, means] = PROFILE_ROWS.find(([id]) => id === wanted)!;
  return means.map((value) => value ?? Number.NaN);
};

describe('likelihoods', () => {
  test('there is a profile of every exercise, in the order of the features', () => {
    expect(PROFILE_ROWS.map(([id]) => id)).toEqual(CATALOGUE.map(({ id }) => id));
    for (const [, means, deviations] of PROFILE_ROWS) {
      expect(means).toHaveLength(FEATURE_NAMES.length);
      expect(deviations).toHaveLength(FEATURE_NAMES.length);
    }
  });

  test.each(PROFILE_ROWS.map(([id]) => id))('the usual look of %s is among the likeliest two', (id) => {
    const { candidates } = likelihoods(usual(id));
    expect(candidates.slice(0, 2).map((candidate) => candidate.id)).toContain(id);
    expect(candidates.reduce((sum, { confidence }) => sum + confidence, 0)).toBeCloseTo(1, 9);
  });

  test('a curl from the side is never certain: one arm or two cannot be told', () => {
    const { candidates, certain } = likelihoods(usual('curl'));
    expect(certain).toBe(false);
    expect(candidates.slice(0, 2).map(({ id }) => id)).toEqual(['curl', 'single-arm-curl']);
  });

  test('a movement halfway between two exercises is certain only from nineteen in twenty on, and near the usual look', () => {
    const [squat, seat] = [usual('squat'), usual('sit-to-stand')];
    const mixed = Array.from({ length: 101 }, (_, percent) =>
      likelihoods(squat.map((value, index) => value + (percent / 100) * (seat[index]! - value))),
    );
    for (const { candidates, certain } of mixed) {
      const { confidence, distance } = candidates[0]!;
      expect(certain).toBe(confidence >= 0.95 && distance <= 0.9);
    }
    const doubtful = mixed.filter(({ candidates }) => candidates[0]!.confidence > 0.6);
    expect(doubtful.some(({ certain }) => !certain)).toBe(true);
    expect(mixed[0]!.certain).toBe(true);
  });

  test('a gesture of half the range is no exercise', () => {
    const [low, high] = [FEATURE_NAMES.indexOf('elbow low'), FEATURE_NAMES.indexOf('elbow high')];
    const curl = usual('curl');
    const gesture = curl.map((value, index) => (index === high ? 0.6 * curl[low]! + 0.4 * value : value));
    expect(likelihoods(gesture).candidates.map(({ id }) => id)).not.toContain('curl');
  });

  test('what is like no exercise is none', () => {
    const nonsense = usual('squat').map((value) => value + 500);
    expect(likelihoods(nonsense)).toEqual({ candidates: [], certain: false });
  });
});
