import { describe, expect, test } from 'vitest';
import { CATALOGUE, findExercise } from '../../../analysis/exercises/catalogue.js';
import { provisional } from '../../../analysis/recognition/provisional.js';

describe('an exercise nobody confirmed', () => {
  test('calls the moves by their direction: opposite phases of curl and pushdown get the same words', () => {
    const curl = provisional(findExercise('curl')).words;
    const pushdown = provisional(findExercise('triceps-pushdown')).words;
    expect(curl).toMatchObject({ eccentric: 'straightening', concentric: 'bending' });
    expect(pushdown).toMatchObject({ eccentric: 'bending', concentric: 'straightening' });
    expect(curl.stretchedHold).toBe(pushdown.contractedHold);
    expect(curl.contractedHold).toBe(pushdown.stretchedHold);
  });

  test('never uses a word that tells lengthening from shortening', () => {
    for (const exercise of CATALOGUE) {
      const { id, name, words } = provisional(exercise);
      expect(id).toBe('unconfirmed');
      expect(name).toContain('Unconfirmed');
      expect(Object.values(words).join(' ')).not.toMatch(/lower|return|lift|pull|press|squeeze|stretch/);
    }
  });
});
