import { mkdtemp, rm, writeFile } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { pathToFileURL } from 'node:url';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { parseSessionPlan } from '../../analysis/plan/sessionPlan.js';
import { plannedPause, sessionSlots } from '../../analysis/session/sessionSlots.js';
import { compareBouts } from '../../analysis/trends/compareBouts.js';
import { demoHistory } from '../../cli/history/demo/demoHistory.js';
import { withHistory } from '../../cli/history/file/history.js';
import { type HistoryEntry, readEntries } from '../../cli/history/sets/readEntries.js';
import { readReport } from '../../cli/history/sets/readSets.js';
import { saveSet } from '../../cli/history/sets/saveSet.js';
import { sideGaps } from '../../cli/history/weeks/sideGap.js';
import { followSides } from '../../cli/history/weeks/trends.js';
import { SESSION_SCHEMA_ID, sessionSet } from '../../cli/session/sessionReport.js';
import { comparisonPage } from '../../cli/views/page/comparisonPage.js';
import { historyPage } from '../../cli/views/page/historyPage.js';
import { sessionPage } from '../../cli/views/page/sessionPage.js';
import { type BrowserSession, startBrowser } from './chromium.js';
import { seriousFindings } from './seriousFindings.js';

const HOSTILE = '<img src=x onerror=alert(1)>.mp4';

let browser: BrowserSession;
let folder: string;
const pages = { history: '', comparison: '', session: '' };

/** The invented history, its last row set under a hostile name. */
function inventedHistory() {
  return withHistory(join(folder, 'history.sqlite'), 'writing', (history) => {
    for (const set of demoHistory()) saveSet(history, set);
    const entries = readEntries(history).map((entry) => ({ ...entry, filmFile: HOSTILE }));
    const rows = entries.filter((entry) => entry.exercise.id === 'single-arm-row');
    const reports = rows.map((entry) => readReport(history, entry.id));
    return { entries, rows, reports };
  });
}

function sessionOf(lastTime: HistoryEntry, report: ReturnType<typeof readReport>) {
  const plan = parseSessionPlan(
    `name: "<b>Garage</b>"\nexercises:\n  - { exercise: single-arm-row, sets: 3, tempo: 4-0-1-1, reps: 10, load: 14kg, rest: 90 }\n`,
    'plan.yaml',
  );
  const slots = sessionSlots(plan);
  const rests = [null, { leastSeconds: 80, mostSeconds: 124 }];
  return sessionPage({
    schema: SESSION_SCHEMA_ID,
    name: plan.name,
    lifter: null,
    orderIsRecorded: true,
    missing: slots.slice(2),
    sets: slots.slice(0, 2).map((slot, index) =>
      sessionSet({
        film: `/garage/${HOSTILE}`,
        slot,
        report,
        fault: null,
        restBefore: rests[index]!,
        plannedPause: plannedPause(slots[index - 1] ?? null, slot),
        lastTime,
      }),
    ),
  });
}

beforeAll(async () => {
  folder = await mkdtemp(join(tmpdir(), 'tempofilm-pages-'));
  const { entries, rows, reports } = inventedHistory();
  const sides = followSides(entries, null);
  const pair = { first: reports[0]!.bouts[0]!, second: reports.at(-1)!.bouts[0]! };
  const texts = {
    history: historyPage(sides, sideGaps(sides)),
    comparison: comparisonPage({
      first: rows[0]!,
      second: rows.at(-1)!,
      pairs: [{ ...pair, comparison: compareBouts(pair.first, pair.second) }],
    }),
    session: sessionOf(rows[0]!, reports.at(-1)!),
  };
  for (const name of ['history', 'comparison', 'session'] as const) {
    const file = join(folder, `${name}.html`);
    await writeFile(file, texts[name]);
    pages[name] = pathToFileURL(file).href;
  }
  browser = await startBrowser();
}, 120_000);

afterAll(async () => {
  await browser?.end();
  await rm(folder, { recursive: true, force: true });
});

describe('the pages of history, comparison and session', () => {
  for (const name of ['history', 'comparison', 'session'] as const) {
    for (const [width, colorScheme] of [
      [320, 'light'],
      [768, 'dark'],
      [1600, 'light'],
    ] as const) {
      it(`${name} fits ${width} px in ${colorScheme}, asks for nothing, no serious finding for accessibility`, async () => {
        const { page, complaints, requests } = await browser.open(pages[name], { width, colorScheme });
        const sizes = await page.evaluate(() => [document.documentElement.scrollWidth, innerWidth]);
        expect(sizes[0]).toBeLessThanOrEqual(sizes[1]!);
        // A picture with a name, and the same numbers as a table.
        expect(await page.locator('figure svg[role="img"][aria-label]').count()).toBeGreaterThan(1);
        expect(await page.locator('figure').count()).toBe(await page.locator('figure details table').count());
        expect(await seriousFindings(page)).toEqual([]);
        expect(requests).toEqual([]);
        expect(complaints).toEqual([]);
        await page.close();
      });
    }
  }

  it('begin with the answer', async () => {
    const { page } = await browser.open(pages.history);
    expect(await page.locator('h1').textContent()).toBe('Squat: more range (+17°) over 12 like sets.');
    expect(await page.locator('main').textContent()).toContain('nobody lifted them');
    await page.goto(pages.session);
    expect(await page.locator('h1').textContent()).toMatch(/^<b>Garage<\/b>: 2 of 3 planned sets measured; /);
    expect(await page.locator('.facts').textContent()).toContain('Single-arm row 3');
    await page.close();
  });

  it('keep names with markup in them as text', async () => {
    for (const address of [pages.comparison, pages.session]) {
      const { page } = await browser.open(address);
      expect(await page.locator('img').count()).toBe(0);
      expect(await page.locator('h1 b').count()).toBe(0);
      expect(await page.locator('body').textContent()).toContain(HOSTILE);
      await page.close();
    }
  });
});
