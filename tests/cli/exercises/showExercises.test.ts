import { describe, expect, it } from 'vitest';
import { CATALOGUE } from '../../../analysis/exercises/catalogue.js';
import { showExercises } from '../../../cli/exercises/showExercises.js';
import { Failure } from '../../../core/failure.js';

function widestLine(text: string): number {
  return Math.max(...text.split('\n').map((line) => line.length));
}

describe('showExercises', () => {
  it('lists every exercise within eighty columns', () => {
    const text = showExercises(null);
    for (const { id } of CATALOGUE) expect(text).toMatch(new RegExp(`^${id} `, 'm'));
    expect(widestLine(text)).toBeLessThanOrEqual(80);
  });

  it.each(CATALOGUE.map(({ id }) => id))('says how to film %s', (id) => {
    const text = showExercises(id);
    expect(text).toMatch(new RegExp(`\\(${id}\\)`));
    expect(text).toMatch(/^Filming {2,}\S/m);
    expect(widestLine(text)).toBeLessThanOrEqual(80);
  });

  it('lists those that hold the words given, and shows a lone one at once', () => {
    expect(showExercises('raise')).toMatch(/^lateral-raise .*\nfront-raise /m);
    expect(showExercises('raise')).not.toMatch(/^squat /m);
    expect(showExercises('Pull Up')).toMatch(/\(pull-up\)/);
  });

  it('takes an exact name even where others hold it too', () => {
    expect(showExercises('squat')).toMatch(/^Squat.*\(squat\)/);
  });

  it('suggests the nearest for a mistyped name', () => {
    expect(() => showExercises('sqaut')).toThrow(Failure);
    try {
      showExercises('sqaut');
    } catch (failure) {
      expect((failure as Failure).remedy).toContain('"squat"');
    }
  });
});
