import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { type History, withHistory } from '../../../cli/history/file/history.js';
import { exportLines } from '../../../cli/history/sets/exportLines.js';
import { importLines } from '../../../cli/history/sets/importLines.js';
import { readEntries } from '../../../cli/history/sets/readEntries.js';
import type { SetToSave } from '../../../cli/history/sets/savedSet.js';
import { saveSet } from '../../../cli/history/sets/saveSet.js';
import { Failure } from '../../../core/failure.js';
import { inventedSet, inventedTrack } from './invented.js';
import { temporaryHistory } from './temporaryHistory.js';

const place = temporaryHistory();
const everything = { selection: {}, tracks: true };
const exported = (history: History) => [...exportLines(history, everything)];

const load = fc.constantFrom(
  null,
  { value: 12.5, unit: 'kg' as const },
  { value: 45, unit: 'lb' as const },
  { value: null, unit: 'bodyweight' as const },
  { value: 7, unit: 'pin' as const },
);

const anySet: fc.Arbitrary<SetToSave> = fc
  .record({
    film: fc.integer({ min: 1, max: 5 }),
    day: fc.integer({ min: 1, max: 28 }),
    eccentricSeconds: fc.array(fc.double({ min: 0.3, max: 9, noNaN: true }), { minLength: 1, maxLength: 6 }),
    load,
    stageLoads: fc.option(
      fc.array(
        load.filter((one) => one !== null),
        { maxLength: 3 },
      ),
      { nil: null },
    ),
    note: fc.option(fc.string({ unit: 'grapheme' }), { nil: null }),
    warmUp: fc.boolean(),
    invented: fc.boolean(),
    amendments: fc.array(
      fc.record({
        side: fc.constantFrom('left' as const, 'right' as const),
        atSeconds: fc.double({ min: 0, max: 60, noNaN: true }),
        reason: fc.option(fc.string(), { nil: null }),
        madeAt: fc.constant('2026-03-02T19:00:00.000Z'),
      }),
      { maxLength: 2 },
    ),
    bytes: fc.option(fc.uint8Array({ maxLength: 64 }), { nil: null }),
  })
  .map(({ film, day, eccentricSeconds, bytes, invented, amendments, ...details }) =>
    inventedSet(
      {
        film: `film ${film}.mp4`,
        eccentricSeconds,
        recordedAt: `2026-03-${String(day).padStart(2, '0')}T18:00:00Z`,
      },
      {
        details: { ...details, lifter: null },
        invented,
        amendments,
        track: bytes === null ? null : inventedTrack(bytes, { 'a later field': true }),
      },
    ),
  );

describe('export and import', () => {
  test('export, import into an empty history, export again: the same bytes', () => {
    fc.assert(
      fc.property(fc.array(anySet, { minLength: 1, maxLength: 8 }), (sets) => {
        const first = withHistory(place(), 'writing', (history) => {
          for (const set of sets) saveSet(history, set);
          return exported(history);
        });
        const second = withHistory(place(), 'writing', (history) => {
          importLines(history, first, 'sets.jsonl');
          return exported(history);
        });
        expect(second).toEqual(first);
      }),
      { numRuns: 25 },
    );
  });

  test('taking the same file in twice changes nothing', () => {
    const lines = withHistory(place(), 'writing', (history) => {
      saveSet(history, inventedSet({ film: 'a.mp4' }));
      saveSet(history, inventedSet({ film: 'b.mp4' }));
      return exported(history);
    });
    withHistory(place(), 'writing', (history) => {
      expect(importLines(history, lines, 'x')).toEqual({ added: 2, updated: 0, kept: 0 });
      expect(importLines(history, lines, 'x')).toEqual({ added: 0, updated: 0, kept: 2 });
      expect(exported(history)).toEqual(lines);
    });
  });

  test('the later state of a set wins, whichever way it travels', () => {
    withHistory(place(), 'writing', (history) => {
      saveSet(history, inventedSet({ eccentricSeconds: [4] }), new Date('2026-03-02T19:00:00Z'));
      const early = exported(history);
      saveSet(history, inventedSet({ eccentricSeconds: [3, 3] }), new Date('2026-03-02T20:00:00Z'));
      const late = exported(history);
      expect(importLines(history, early, 'x')).toEqual({ added: 0, updated: 0, kept: 1 });
      expect(readEntries(history)[0]?.bouts[0]?.completeReps).toBe(2);
      withHistory(place(), 'writing', (other) => {
        importLines(other, early, 'x');
        expect(importLines(other, late, 'x')).toEqual({ added: 0, updated: 1, kept: 0 });
        expect(exported(other)).toEqual(late);
      });
    });
  });

  test('a number that is taken gives way; a set measured on both machines stays one', () => {
    const lines = withHistory(place(), 'writing', (history) => {
      saveSet(history, inventedSet({ film: 'a.mp4' }), new Date('2026-03-02T19:00:00Z'));
      saveSet(history, inventedSet({ film: 'b.mp4' }), new Date('2026-03-02T19:00:00Z'));
      return exported(history);
    });
    withHistory(place(), 'writing', (history) => {
      saveSet(history, inventedSet({ film: 'c.mp4' }));
      saveSet(history, inventedSet({ film: 'b.mp4' }), new Date('2026-03-01T19:00:00Z'));
      expect(importLines(history, lines, 'x')).toEqual({ added: 1, updated: 1, kept: 0 });
      expect(readEntries(history).map((entry) => [entry.id, entry.filmFile])).toEqual([
        [1, 'c.mp4'],
        [2, 'b.mp4'],
        [3, 'a.mp4'],
      ]);
    });
  });

  test('one wrong line: its number is named and nothing is taken in', () => {
    const lines = withHistory(place(), 'writing', (history) => {
      saveSet(history, inventedSet());
      return exported(history);
    });
    withHistory(place(), 'writing', (history) => {
      const wrong = [lines[0]!, lines[0]!.replace('"tempofilm.set/1"', '"something else"')];
      expect(() => importLines(history, wrong, 'sets.jsonl')).toThrowError(
        /^sets\.jsonl, line 2 is no saved set: report/,
      );
      expect(() => importLines(history, [...lines, '{'], 'sets.jsonl')).toThrowError(/line 2 is not JSON/);
      expect(() => importLines(history, ['{}'], 'sets.jsonl')).toThrow(Failure);
      expect(readEntries(history)).toEqual([]);
    });
  });
});
