import { describe, expect, test } from 'vitest';
import { withHistory } from '../../../cli/history/file/history.js';
import { readEntries } from '../../../cli/history/sets/readEntries.js';
import { readReport, readTrack } from '../../../cli/history/sets/readSets.js';
import { describeSave, saveSet } from '../../../cli/history/sets/saveSet.js';
import { inventedReport, inventedSet, inventedTrack } from './invented.js';
import { temporaryHistory } from './temporaryHistory.js';

const place = temporaryHistory();

describe('saving a set', () => {
  test('the whole report, the track and what the lifter said come back as they went in', () => {
    const file = place();
    const details = {
      lifter: 'Robin',
      load: { value: 14, unit: 'kg' as const },
      stageLoads: [
        { value: 14, unit: 'kg' as const },
        { value: 10, unit: 'kg' as const },
      ],
      warmUp: true,
      note: 'Left elbow – kept close.',
    };
    const bytes = Uint8Array.from({ length: 5000 }, (_, index) => index % 251);
    const track = inventedTrack(bytes);
    const set = inventedSet({}, { details, track });
    const { id } = withHistory(file, 'writing', (history) => saveSet(history, set));
    withHistory(file, 'reading', (history) => {
      expect(readReport(history, id)).toEqual(set.report);
      expect(readTrack(history, id)).toEqual(track);
      const [entry] = readEntries(history);
      expect(entry?.details).toEqual(details);
      expect(entry?.bouts[0]?.medianEccentricSeconds).toBeCloseTo(3.9, 12);
      expect(entry?.bouts[0]?.deliveredLoweringShare).toBeCloseTo(11.7 / 12, 12);
    });
  });

  test('the same film and exercise again takes the place of its set, keeps what was said about it, and says so', () => {
    withHistory(place(), 'writing', (history) => {
      const load = { value: 12, unit: 'kg' as const };
      const first = saveSet(
        history,
        inventedSet({}, { details: { ...inventedSet().details, load, note: 'easy' } }),
      );
      saveSet(history, inventedSet({ film: 'squat.mp4', exercise: { id: 'squat', name: 'Squat' } }));
      const again = saveSet(history, inventedSet({ eccentricSeconds: [2, 2] }));
      expect(again).toEqual({ id: first.id, replaced: [first.id] });
      expect(describeSave(again)).toBe(
        'Saved as set 1, in place of the earlier one of the same film and exercise.',
      );
      const entries = readEntries(history, { exerciseId: 'single-arm-row' });
      expect(entries).toHaveLength(1);
      expect(entries[0]?.bouts[0]?.completeReps).toBe(2);
      expect(entries[0]?.details).toMatchObject({ load, note: 'easy' });
    });
  });

  test('a later copy of a film that does not say when it was recorded does not move its set', () => {
    withHistory(place(), 'writing', (history) => {
      const dayOf = (instant: string, source: 'film' | 'file') => {
        saveSet(history, inventedSet({}, { recordedAt: { instant, source } }));
        return readEntries(history)[0]?.recordedAt.instant;
      };
      expect(dayOf('2026-03-05T10:00:00Z', 'file')).toBe('2026-03-05T10:00:00Z');
      expect(dayOf('2026-04-01T10:00:00Z', 'file')).toBe('2026-03-05T10:00:00Z');
      expect(dayOf('2026-03-02T18:04:11Z', 'film')).toBe('2026-03-02T18:04:11Z');
      expect(dayOf('2026-03-01T10:00:00Z', 'file')).toBe('2026-03-02T18:04:11Z');
    });
  });

  test('parts of one film that do not overlap are different sets; overlapping ones are the same', () => {
    withHistory(place(), 'writing', (history) => {
      saveSet(history, inventedSet({}, { toSeconds: 40 }));
      expect(saveSet(history, inventedSet({}, { fromSeconds: 40 })).replaced).toEqual([]);
      expect(saveSet(history, inventedSet({}, { fromSeconds: 38, toSeconds: 60 })).replaced).toEqual([1, 2]);
      expect(readEntries(history)).toHaveLength(1);
    });
  });

  test('a fault on the way leaves nothing of the set behind', () => {
    withHistory(place(), 'writing', (history) => {
      saveSet(history, inventedSet());
      const bout = inventedReport().bouts[0]!;
      const broken = {
        ...inventedReport({ film: 'other.mp4' }),
        bouts: [bout, { ...bout, side: 'middle' as never }],
      };
      expect(() => saveSet(history, { ...inventedSet({ film: 'other.mp4' }), report: broken })).toThrow();
      expect(readEntries(history)).toHaveLength(1);
      expect(history.read((database) => database.all('SELECT * FROM reports'))).toHaveLength(1);
    });
  });

  test('sets come in order of recording and by lifter, day and exercise', () => {
    withHistory(place(), 'writing', (history) => {
      const lifter = (name: string) => ({ details: { ...inventedSet().details, lifter: name } });
      saveSet(
        history,
        inventedSet({ film: 'b.mp4', recordedAt: '2026-03-09T18:00:00+01:00' }, lifter('Robin')),
      );
      saveSet(
        history,
        inventedSet({ film: 'a.mp4', recordedAt: '2026-03-02T18:00:00+01:00' }, lifter('Kim')),
      );
      expect(readEntries(history).map((entry) => entry.filmFile)).toEqual(['a.mp4', 'b.mp4']);
      expect(readEntries(history, { since: '2026-03-05T00:00:00.000Z' })).toHaveLength(1);
      expect(readEntries(history, { lifter: 'kim' }).map((entry) => entry.filmFile)).toEqual(['a.mp4']);
      expect(readEntries(history, { exerciseId: 'squat' })).toEqual([]);
    });
  });

  test('reading where nothing was ever saved finds nothing and creates nothing', async () => {
    const file = place();
    expect(withHistory(file, 'reading', (history) => readEntries(history))).toEqual([]);
    const { existsSync } = await import('node:fs');
    expect(existsSync(file)).toBe(false);
  });
});
