import { describe, expect, test } from 'vitest';
import { withHistory } from '../../../cli/history/file/history.js';
import { boutFigures } from '../../../cli/history/sets/figures.js';
import { readEntries, readFollowedSets, type Selection } from '../../../cli/history/sets/readEntries.js';
import { NO_DETAILS } from '../../../cli/history/sets/savedSet.js';
import { saveSet } from '../../../cli/history/sets/saveSet.js';
import { inventedSet } from './invented.js';
import { temporaryHistory } from './temporaryHistory.js';

const place = temporaryHistory();
const squat = { id: 'squat', name: 'Squat' };
const load = { value: 22.5, unit: 'lb' as const };
const instantOf = (day: string) => ({ instant: `2026-03-${day}T18:00:00.000Z`, source: 'film' as const });

/** Four sets, saved in another order than they were filmed in. */
const SETS = [
  inventedSet({ film: 'c.mp4', rangeDegrees: [90.1, 100 / 3, 71.7] }, { recordedAt: instantOf('09') }),
  inventedSet({ film: 'a.mp4', plannedEccentricSeconds: null }, { recordedAt: instantOf('02') }),
  inventedSet(
    { film: 'b.mp4', exercise: squat },
    { recordedAt: instantOf('05'), details: { ...NO_DETAILS, lifter: 'Robin', load, stageLoads: [load] } },
  ),
  inventedSet({ film: 'd.mp4', exercise: squat }, { recordedAt: instantOf('12'), invented: true }),
];

function withSets<Result>(work: Parameters<typeof withHistory<Result>>[2]): Result {
  const file = place();
  withHistory(file, 'writing', (history) => {
    for (const set of SETS) saveSet(history, { ...set, filmKey: set.report.film.file });
    const amend = 'INSERT INTO amendments VALUES (?, ?, ?, ?, ?)';
    for (const at of [3, 9]) history.write((one) => one.run(amend, [1, 'left', at, null, '2026-03-10']));
  });
  return withHistory(file, 'reading', work);
}

describe('sets that are read', () => {
  test('stand in order of recording, with what was put in to the last bit', () => {
    const entries = withSets((history) => readEntries(history));
    const inOrder = [SETS[1]!, SETS[2]!, SETS[0]!, SETS[3]!];
    expect(entries.map((entry) => entry.filmFile)).toEqual(['a.mp4', 'b.mp4', 'c.mp4', 'd.mp4']);
    entries.forEach((entry, index) => {
      const { report, details, recordedAt, invented } = inOrder[index]!;
      const { plan, headline } = report;
      expect(entry).toMatchObject({ plan, headline, details, recordedAt, invented });
      expect(entry.bouts).toEqual(boutFigures(report));
    });
    expect(entries.map((entry) => entry.amendments)).toEqual([0, 0, 2, 0]);
  });

  test.each<[string, Selection, readonly string[]]>([
    ['an exercise', { exerciseId: 'squat' }, ['b.mp4', 'd.mp4']],
    ['a lifter, however written', { lifter: 'ROBIN' }, ['b.mp4']],
    ['a day on', { since: '2026-03-05T00:00:00.000Z' }, ['b.mp4', 'c.mp4', 'd.mp4']],
    ['numbers', { ids: [1, 4] }, ['c.mp4', 'd.mp4']],
  ])('are those of %s, each with its own bouts', (_name, selection, films) => {
    const entries = withSets((history) => readEntries(history, selection));
    expect(entries.map((entry) => entry.filmFile)).toEqual(films);
    for (const entry of entries) expect(entry.bouts).toHaveLength(1);
  });

  test('are the same where only what is followed is read', () => {
    withSets((history) => {
      const followed = readFollowedSets(history);
      expect(readEntries(history)).toMatchObject(followed);
      expect(Object.keys(followed[0]!).sort()).toEqual(
        ['id', 'exercise', 'plan', 'recordedAt', 'details', 'invented', 'amendments', 'bouts'].sort(),
      );
    });
  });
});
