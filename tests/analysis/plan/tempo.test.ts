import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { findExercise } from '../../../analysis/exercises/catalogue.js';
import type { Tempo } from '../../../analysis/plan/plan.js';
import { parseTempo } from '../../../analysis/plan/tempo.js';
import { describeTempo } from '../../../analysis/plan/tempoWords.js';
import { Failure } from '../../../core/failure.js';

const tempo = (
  eccentric: Tempo['eccentric'],
  stretchedHold: Tempo['stretchedHold'],
  concentric: Tempo['concentric'],
  contractedHold: Tempo['contractedHold'],
): Tempo => ({ eccentric, stretchedHold, concentric, contractedHold });

/** The notation, always four fields with hyphens. */
function written({ eccentric, stretchedHold, concentric, contractedHold }: Tempo): string {
  return [eccentric, stretchedHold, concentric, contractedHold].map((planned) => planned ?? '_').join('-');
}

function failureOf(run: () => unknown): Failure {
  try {
    run();
  } catch (error) {
    if (error instanceof Failure) return error;
    throw error;
  }
  throw new Error('nothing was thrown');
}

describe('parseTempo', () => {
  // Four digits in this order, X for explosive: common practice; the slashed forms are those of
  // Wilk et al. 2018 (J Hum Kinet, 2/0/2/0, 5/0/3/0, 6/0/4/0) and, with three fields, 2/0/X (2020).
  it.each([
    ['2/0/2/0', tempo(2, 0, 2, 0)],
    ['5/0/3/0', tempo(5, 0, 3, 0)],
    ['6/0/4/0', tempo(6, 0, 4, 0)],
    ['2/0/X', tempo(2, 0, 'X', null)],
    ['3010', tempo(3, 0, 1, 0)],
    ['40X0', tempo(4, 0, 'X', 0)],
    ['3-1-2-0', tempo(3, 1, 2, 0)],
    ['4-0-1-1', tempo(4, 0, 1, 1)],
    ['40x1', tempo(4, 0, 'X', 1)],
    ['5-_-_-1', tempo(5, null, null, 1)],
    ['5__1', tempo(5, null, null, 1)],
    ['201', tempo(2, 0, 1, null)],
    ['10-0-2-0', tempo(10, 0, 2, 0)],
    ['2.5-0-.5-1', tempo(2.5, 0, 0.5, 1)],
    [' 4 0 1 1 ', tempo(4, 0, 1, 1)],
    ['4–0–1–1', tempo(4, 0, 1, 1)],
    ['X-0-1-0', tempo('X', 0, 1, 0)],
  ])('reads %s', (text, expected) => {
    expect(parseTempo(text)).toEqual(expected);
  });

  it.each([
    ['4-0-y-1', 4, '"y" is not'],
    ['40y1', 2, '"y" is not'],
    ['4-0', 3, 'only 2 of the four'],
    ['4', 1, 'only 1 of the four fields is'],
    ['40111', 4, 'there are 5 fields'],
    ['', 0, 'nothing is written'],
    ['4-X-1-0', 2, 'X means'],
    ['4-0-0-1', 4, 'cannot take 0 s'],
    ['4-0-999-1', 4, 'too long'],
    ['4.0.1.1', 1, 'decimal point'],
    ['4-0-1s-1', 4, '"1s" is not'],
    ['4--0-1e1-1', 5, '"1e1" is not'],
  ])('points at what is wrong in "%s"', (text, column, reason) => {
    const failure = failureOf(() => parseTempo(text));
    expect(failure.kind).toBe('usage');
    expect(failure.message).toContain(reason);
    const lines = failure.message.split('\n');
    expect(lines[1]).toBe(`  ${text}`);
    expect(lines[2]).toBe(`  ${' '.repeat(column)}^`);
    expect(failure.remedy).toContain('4-0-1-1');
  });

  it('reads back whatever is written', () => {
    const seconds = fc.oneof(
      fc.constant(null),
      fc.integer({ min: 1, max: 1200 }).map((tenths) => tenths / 10),
    );
    const move = fc.oneof(seconds, fc.constant('X' as const));
    const hold = fc.oneof(seconds, fc.constant(0));
    fc.assert(
      fc.property(move, hold, move, hold, (eccentric, stretchedHold, concentric, contractedHold) => {
        const planned = tempo(eccentric, stretchedHold, concentric, contractedHold);
        expect(parseTempo(written(planned))).toEqual(planned);
      }),
    );
  });

  it('either reads a text or refuses it with a Failure, never anything else', () => {
    fc.assert(
      fc.property(fc.string({ unit: fc.constantFrom(...'0123456789Xx_-/. –s') }), (text) => {
        try {
          parseTempo(text);
        } catch (error) {
          expect(error).toBeInstanceOf(Failure);
        }
      }),
    );
  });
});

describe('describeTempo', () => {
  it.each([
    ['curl', '4-0-1-1', 'lower for 4 s, no pause, lift in 1 s, squeeze for 1 s'],
    ['curl', '5-_-_-1', 'lower for 5 s, squeeze for 1 s'],
    ['pulldown', '3-1-X-0', 'return for 3 s, stretch for 1 s, pull as fast as the load allows, no squeeze'],
    ['squat', 'X-0-1-2', 'lower quickly (not judged), no pause, lift in 1 s, pause for 2 s'],
    ['squat', '____', 'no tempo prescribed'],
  ])('says the plan of a %s, %s', (id, text, words) => {
    expect(describeTempo(parseTempo(text), findExercise(id).words)).toBe(words);
  });
});
