import { readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, test } from 'vitest';
import { withHistory } from '../../cli/history/file/history.js';
import { saveSet } from '../../cli/history/sets/saveSet.js';
import { PEAK_FLOW, SEN_1968, TIED_SERIES } from '../../fixtures/published/statistics.js';
import { type InventedSet, inventedSet } from '../cli/history/invented.js';
import { runInProcess } from './runInProcess.js';
import { temporaryHome } from './temporaryHome.js';

const home = temporaryHome();
let histories = 0;

/** A history file holding these sets, and the command run on it. */
function historyOf(sets: readonly InventedSet[]) {
  histories += 1;
  const file = join(home, `history ${histories}.sqlite`);
  withHistory(file, 'writing', (history) => {
    for (const set of sets) saveSet(history, inventedSet(set));
  });
  return (...parameters: readonly string[]) => runInProcess([...parameters, '--history', file], { home });
}

const dayOf = (day: number) => new Date(Date.UTC(2026, 0, 1 + day, 12)).toISOString();

/** Sets whose median range is the value, one a day as numbered. */
function series(days: readonly number[], values: readonly number[], uncertaintyDegrees = 0.1) {
  return days.map((day, index) => ({
    film: `day ${day}.mp4`,
    recordedAt: dayOf(day),
    rangeDegrees: [values[index]!, values[index]!, values[index]!],
    uncertaintyDegrees,
  }));
}

async function rangeTrend(days: readonly number[], values: readonly number[], uncertainty?: number) {
  const run = historyOf(series(days, values, uncertainty));
  const outcome = await run('history', 'row', '--format', 'json');
  expect(outcome).toMatchObject({ code: 0, errors: '' });
  return JSON.parse(outcome.output).trends[0].measures.medianRangeDegrees;
}

describe('published figures through the commands', () => {
  test('Sen 1968, the example data: slope 4; Mann–Kendall score 21', async () => {
    const trend = await rangeTrend(SEN_1968.x, SEN_1968.y);
    expect(trend.perWeek / 7).toBeCloseTo(4, 9);
    // The 95 % interval is the wider neighbour of Sen's printed 93 % one (26/7 to 35/8).
    expect(trend.intervalPerWeek[0] / 7).toBeLessThanOrEqual(26 / 7 + 1e-9);
    expect(trend.intervalPerWeek[1] / 7).toBeGreaterThanOrEqual(35 / 8 - 1e-9);
    expect(trend.mannKendall.score).toBe(21);
    expect(trend.mannKendall.variance).toBeCloseTo(44.333333, 5);
    // Exact Kendall probability of a perfect order of seven, 2 / 7!.
    expect(trend.mannKendall.probability).toBeCloseTo(0.000396825, 8);
    expect(trend.verdict).toBe('rising');
  });

  test('Mann–Kendall with ties, figures of the CRAN package trend: S 35, variance 123, p 0.00217', async () => {
    const trend = await rangeTrend([1, 2, 3, 4, 5, 6, 7, 8, 9, 10], TIED_SERIES);
    expect(trend.mannKendall.score).toBe(35);
    expect(trend.mannKendall.variance).toBeCloseTo(123, 9);
    expect(trend.mannKendall.deviate).toBeCloseTo(3.065676758, 8);
    expect(trend.mannKendall.probability).toBeCloseTo(0.00217178, 7);
    expect(trend.perWeek / 7).toBeCloseTo(0.714285714, 8);
  });

  test('four values are too few for a trend, however they rise', async () => {
    expect(await rangeTrend([1, 2, 3, 4], [10, 14, 15, 20])).toMatchObject({ kind: 'too-few', sets: 4 });
  });

  test('a steady change within the measurement’s own uncertainty is not called a trend', async () => {
    const trend = await rangeTrend([1, 2, 3, 4, 5, 6, 7], [90, 90.2, 90.4, 90.6, 90.8, 91, 91.2], 4);
    expect(trend.mannKendall.probability).toBeLessThan(0.05);
    expect(trend.verdict).toBe('within-measurement');
  });

  test('Bland and Altman 1986, peak flow by two meters: bias −2.1, limits −78.1 to 73.9', async () => {
    const { wrightFirst: wright, miniFirst: mini } = PEAK_FLOW;
    const lowerings = (values: readonly number[]) => values.map((value) => value / 100);
    const run = historyOf([
      { film: 'mini.mp4', recordedAt: dayOf(1), eccentricSeconds: lowerings(mini) },
      { film: 'wright.mp4', recordedAt: dayOf(2), eccentricSeconds: lowerings(wright) },
    ]);
    const outcome = await run('compare', 'mini.mp4', 'wright.mp4', '--format', 'json');
    expect(outcome).toMatchObject({ code: 0, errors: '' });
    const agreement = JSON.parse(outcome.output).pairs[0].agreement.eccentricSeconds;
    expect(agreement.pairs).toBe(17);
    expect(agreement.bias * 100).toBeCloseTo(-2.117647, 5);
    expect(agreement.standardDeviation * 100).toBeCloseTo(38.76513, 4);
    expect(agreement.limits[0] * 100).toBeCloseTo(-78.0973, 3);
    expect(agreement.limits[1] * 100).toBeCloseTo(73.862, 3);
    expect(agreement.biasInterval[0] * 100).toBeCloseTo(-22.0488, 3);
    expect(agreement.biasInterval[1] * 100).toBeCloseTo(17.8135, 3);
  });
});

describe('the history commands', () => {
  test('other views are left out of the trends in so many words', async () => {
    const days = [1, 2, 3, 4, 5, 6];
    const sets = series(days, [90, 91, 90, 92, 91, 90]).map((set, index) => ({
      ...set,
      ...(index === 1 ? { facing: 'front' as const } : {}),
    }));
    const { output } = await historyOf(sets)('history', 'row');
    expect(output).toContain('1 set filmed from another view: degrees from different views bend differently');
    expect(output).toMatch(/2 Jan|3 Jan/);
    expect(output).toContain('≁');
  });

  test('export, import elsewhere, export: the same bytes; taken in twice changes nothing', async () => {
    const first = historyOf(series([1, 2, 3], [90, 80, 70]));
    const second = historyOf([]);
    const exported = join(home, 'exported.jsonl');
    const again = join(home, 'again.jsonl');
    expect((await first('export', '--output', exported)).code).toBe(0);
    expect((await second('import', exported)).output).toBe(
      '3 added, 0 brought up to date, 0 already here.\n',
    );
    expect((await second('import', exported)).output).toBe(
      '0 added, 0 brought up to date, 3 already here.\n',
    );
    expect((await second('export', '--output', again)).code).toBe(0);
    expect(readFileSync(again).equals(readFileSync(exported))).toBe(true);
  });

  test('amend drops a rep beside the measurement, and takes it back', async () => {
    const run = historyOf([{ eccentricSeconds: [4, 4, 4, 1] }]);
    const before = (await run('show', '1', '--format', 'json')).output;
    expect((await run('amend', '1', '--drop', '4', '--reason', 'set it down')).code).toBe(0);
    expect(JSON.parse((await run('show', '1', '--format', 'json')).output).bouts[0].reps).toHaveLength(3);
    expect((await run('show', '1', '--measured', '--format', 'json')).output).toBe(before);
    expect((await run('show', '1')).output).toMatch(
      /was measured as rep 4\s+and was dropped by you \(set\s+it\s+down\)/,
    );
    expect((await run('list')).output).toContain('amended');
    await run('amend', '1', '--undo');
    expect((await run('show', '1', '--format', 'json')).output).toBe(before);
  });

  test('delete asks, so without a terminal it wants --yes', async () => {
    const run = historyOf([{}]);
    expect(await run('delete', '1')).toMatchObject({ code: 2, output: '' });
    expect(await run('delete', 'last', '--yes')).toMatchObject({ code: 0 });
    expect((await run('list')).output).toContain('No sets are saved yet.');
    expect((await run('show', 'last')).code).toBe(2);
  });

  test('a damaged history: exit code 5, one line, the backup offered and put back', async () => {
    const run = historyOf(series([1, 2, 3], [90, 80, 70]));
    expect((await run('backup')).code).toBe(0);
    writeFileSync(
      join(home, `history ${histories}.sqlite`),
      'overwritten by something else, alas '.repeat(300),
    );
    const fault = await run('history');
    expect(fault).toMatchObject({ code: 5, output: '' });
    expect(fault.errors).toMatch(/is damaged or is no history; nothing was changed[\s\S]*backup --restore/);
    expect((await run('backup', '--restore')).output).toMatch(/^The history has 3 sets again/);
    expect((await run('list')).output).toContain('3 sets of 1 exercise');
  });
});
