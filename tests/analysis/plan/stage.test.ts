import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { formatReps, parseReps, parseStage } from '../../../analysis/plan/stage.js';
import { Failure } from '../../../core/failure.js';

describe('parseReps', () => {
  it('reads a number and a range', () => {
    expect(parseReps('8')).toEqual({ min: 8, max: 8 });
    expect(parseReps('8-10')).toEqual({ min: 8, max: 10 });
    expect(parseReps(' 8 – 10 ')).toEqual({ min: 8, max: 10 });
  });

  it.each(['', 'eight', '8-', '-8', '8-10-12', '10-8', '0', '501', '1.5'])('refuses "%s"', (text) => {
    expect(() => parseReps(text)).toThrow(Failure);
  });

  it('reads back whatever it writes', () => {
    fc.assert(
      fc.property(fc.integer({ min: 1, max: 250 }), fc.integer({ min: 0, max: 250 }), (min, more) => {
        expect(parseReps(formatReps({ min, max: min + more }))).toEqual({ min, max: min + more });
      }),
    );
  });
});

describe('parseStage', () => {
  it('reads tempo, reps and planned partials', () => {
    expect(parseStage('5-0-1-1:8-10')).toEqual({
      tempo: { eccentric: 5, stretchedHold: 0, concentric: 1, contractedHold: 1 },
      reps: { min: 8, max: 10 },
    });
    expect(parseStage('1-0-X-0').reps).toBeNull();
    expect(parseStage('1-0-1-0:5:partials').partials).toBe(true);
  });

  it.each(['5-0-1-1:8-10:fast', '5-0-1-1:8:partials:2', ':8', '5-0-1-1:'])('refuses "%s"', (text) => {
    expect(() => parseStage(text)).toThrow(Failure);
  });
});
