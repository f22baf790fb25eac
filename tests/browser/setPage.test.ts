import { readFileSync } from 'node:fs';
import { mkdtemp, rm, writeFile } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { pathToFileURL } from 'node:url';
import type { Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { renderSetPage } from '../../cli/views/page/setPage.js';
import { sampleSet } from '../cli/views/page/sampleSet.js';
import { type BrowserSession, type OpenedPage, startBrowser } from './chromium.js';
import { makePlainFilm } from './plainFilm.js';
import { seriousFindings } from './seriousFindings.js';

const HOSTILE = '<img src=x onerror=alert(1)>.mp4';

let browser: BrowserSession;
let folder: string;
const sample = sampleSet();
const leftReps = sample.analysis.report.bouts[0]!.reps;

async function written(name: string, text: string): Promise<string> {
  const file = join(folder, name);
  await writeFile(file, text);
  return pathToFileURL(file).href;
}

const pages = { film: '', figure: '', embedded: '', hostile: '', missing: '' };

beforeAll(async () => {
  folder = await mkdtemp(join(tmpdir(), 'tempofilm-page-'));
  const film = join(folder, 'row.mp4');
  await makePlainFilm(film, sample.film.durationSeconds);
  const render = (set: typeof sample, filmHref: string | null, base64?: string) =>
    renderSetPage(set.analysis, set.track, {
      filmHref,
      figureOnly: filmHref === null,
      ...(base64 === undefined ? {} : { embeddedFilm: { type: 'video/mp4', base64 } }),
    });
  pages.film = await written('film.html', render(sample, './row.mp4'));
  pages.figure = await written('figure.html', render(sample, null));
  pages.embedded = await written(
    'embedded.html',
    render(sample, './row.mp4', readFileSync(film).toString('base64')),
  );
  pages.missing = await written('missing.html', render(sample, './gone.mp4'));
  const hostile = sampleSet({ file: HOSTILE });
  hostile.analysis.report.quality.findings[0]!.message = '<script>alert(2)</script></script><b>note</b>';
  hostile.analysis.report.bouts[0]!.side = 'left';
  pages.hostile = await written('hostile.html', render(hostile, `./${encodeURIComponent(HOSTILE)}`));
  browser = await startBrowser();
}, 60_000);

afterAll(async () => {
  await browser?.end();
  await rm(folder, { recursive: true, force: true });
});

const filmTime = (page: Page) => page.evaluate(() => document.querySelector('video')!.currentTime);
const shownTime = (page: Page) =>
  page.evaluate(() => Number((document.getElementById('player-time') as HTMLInputElement).value));

async function waitForFilm(page: Page): Promise<void> {
  await page.waitForFunction(() => (document.querySelector('video')?.readyState ?? 0) >= 2);
}

describe('a set with its film beside it', () => {
  it('jumps from a rep to its time in the film', async () => {
    const { page, complaints } = await browser.open(pages.film);
    await waitForFilm(page);
    await page.getByRole('button', { name: 'Show rep 3 in the film' }).first().click();
    await page.waitForFunction(() => !document.querySelector('video')!.seeking);
    expect(await filmTime(page)).toBeCloseTo(leftReps[2]!.startSeconds, 1);
    expect(await page.locator('tr.current button').first().textContent()).toBe('3');
    expect(await page.locator('#player-words').textContent()).toMatch(
      /^Left, rep 3: lift 0\.0 s of 1 s planned/,
    );
    expect(complaints).toEqual([]);
    await page.close();
  });

  it('jumps to where the curve is clicked', async () => {
    const { page } = await browser.open(pages.film);
    await waitForFilm(page);
    const svg = page.locator('svg.curve').first();
    const target = 12;
    const x = await svg.evaluate((element, seconds) => {
      const data = (element as SVGElement).dataset;
      const share = (seconds - Number(data['from'])) / (Number(data['to']) - Number(data['from']));
      const along = Number(data['left']) + share * (Number(data['right']) - Number(data['left']));
      return along * element.getBoundingClientRect().width;
    }, target);
    await svg.click({ position: { x, y: 100 } });
    await page.waitForFunction(() => !document.querySelector('video')!.seeking);
    expect(await filmTime(page)).toBeCloseTo(target, 0);
    await page.close();
  });

  it('moves the cursor while the film plays', async () => {
    const { page } = await browser.open(pages.film);
    await waitForFilm(page);
    await page.getByRole('button', { name: 'Show rep 2 in the film' }).first().click();
    const cursor = page.locator('.cursor').first();
    const before = (await cursor.boundingBox())!.x;
    await page.getByRole('button', { name: 'Play' }).click();
    await page.waitForFunction(
      (from) => document.querySelector('video')!.currentTime > from + 1,
      leftReps[1]!.startSeconds,
    );
    await page.getByRole('button', { name: 'Pause' }).click();
    const after = (await cursor.boundingBox())!.x;
    expect(after).toBeGreaterThan(before + 8);
    expect(Math.abs((await shownTime(page)) - (await filmTime(page)))).toBeLessThan(0.15);
    await page.close();
  });

  it('is worked by keys while the focus is in the player, and only then', async () => {
    const { page } = await browser.open(pages.film);
    await waitForFilm(page);
    await page.keyboard.press('n');
    expect(await shownTime(page)).toBe(0);
    await page.locator('.curve-scroll').first().focus();
    await page.keyboard.press('n');
    expect(await shownTime(page)).toBeCloseTo(leftReps[0]!.startSeconds, 1);
    await page.keyboard.press('n');
    expect(await shownTime(page)).toBeCloseTo(leftReps[1]!.startSeconds, 1);
    await page.keyboard.press('ArrowRight');
    expect(await shownTime(page)).toBeCloseTo(leftReps[1]!.startSeconds + 1, 1);
    await page.keyboard.press('p');
    expect(await shownTime(page)).toBeCloseTo(leftReps[1]!.startSeconds, 1);
    await page.keyboard.press(' ');
    await page.getByRole('button', { name: 'Pause' }).waitFor();
    await page.keyboard.press(' ');
    await page.getByRole('button', { name: 'Play' }).waitFor();
    expect(await page.locator('#player-figure').isChecked()).toBe(true);
    await page.keyboard.press('f');
    expect(await page.locator('#player-figure').isChecked()).toBe(false);
    await page.close();
  });

  it('asks for its film and for nothing else', async () => {
    const { page, requests } = await browser.open(pages.film);
    await waitForFilm(page);
    expect(requests.every((address) => address === new URL('row.mp4', pages.film).href)).toBe(true);
    await page.close();
  });
});

describe('a set without a film to show', () => {
  it('moves the figure in its place, asks for nothing and complains of nothing', async () => {
    const { page, requests, complaints } = await browser.open(pages.figure);
    expect(await page.locator('video').count()).toBe(0);
    const inked = () =>
      page.evaluate(() => {
        const canvas = document.querySelector('canvas')!;
        const { data } = canvas.getContext('2d')!.getImageData(0, 0, canvas.width, canvas.height);
        return data.reduce((sum, value, index) => sum + (index % 4 === 3 && value > 0 ? 1 : 0), 0);
      });
    expect(await inked()).toBeGreaterThan(500);
    await page.getByRole('button', { name: 'Play' }).click();
    await page.waitForFunction(
      () => Number((document.getElementById('player-time') as HTMLInputElement).value) > 0.3,
    );
    expect(requests).toEqual([]);
    expect(complaints).toEqual([]);
    await page.close();
  });

  it('says so where the film is gone, and shows the figure', async () => {
    const { page } = await browser.open(pages.missing);
    await page.locator('#film-missing').waitFor({ state: 'visible' });
    expect(await page.locator('video').count()).toBe(0);
    await page.getByRole('button', { name: 'Show rep 2 in the film' }).first().click();
    expect(await shownTime(page)).toBeCloseTo(leftReps[1]!.startSeconds, 1);
    await page.close();
  });
});

describe('a set with its film inside', () => {
  it('plays and seeks without its folder', async () => {
    const { page, requests, complaints } = await browser.open(pages.embedded);
    await waitForFilm(page);
    await page.getByRole('button', { name: 'Show rep 5 in the film' }).first().click();
    await page.waitForFunction(() => !document.querySelector('video')!.seeking);
    expect(await filmTime(page)).toBeCloseTo(leftReps[4]!.startSeconds, 1);
    expect(requests.filter((address) => !address.startsWith('blob:'))).toEqual([]);
    expect(complaints).toEqual([]);
    await page.close();
  });
});

describe('names and notes with markup in them', () => {
  it('stay text', async () => {
    const { page, complaints } = await browser.open(pages.hostile);
    let asked = false;
    page.on('dialog', (dialog) => {
      asked = true;
      void dialog.dismiss();
    });
    await page.locator('#film-missing').waitFor({ state: 'visible' });
    expect(await page.locator('img').count()).toBe(0);
    expect(await page.locator('.overline').textContent()).toContain(HOSTILE);
    expect(await page.locator('.findings').textContent()).toContain('<script>alert(2)</script>');
    expect(asked).toBe(false);
    expect(complaints.filter((text) => !text.includes('ERR_FILE_NOT_FOUND'))).toEqual([]);
    await page.close();
  });
});

describe.each([320, 768, 1600])('a screen of %i px', (width) => {
  let opened: OpenedPage;
  beforeAll(async () => {
    opened = await browser.open(pages.embedded, { width });
    return () => opened.page.close();
  });

  for (const colorScheme of ['light', 'dark'] as const) {
    it(`fits in ${colorScheme}, without serious findings for accessibility`, {
      timeout: 60_000,
    }, async () => {
      const { page, complaints } = opened;
      await page.emulateMedia({ colorScheme });
      await showDetails(page, false);
      const sizes = await page.evaluate(() => [document.documentElement.scrollWidth, innerWidth]);
      expect(sizes[0]).toBeLessThanOrEqual(sizes[1]!);
      await showDetails(page, true);
      expect(await seriousFindings(page)).toEqual([]);
      expect(complaints).toEqual([]);
    });
  }
});

const showDetails = (page: Page, open: boolean) =>
  page.evaluate((shown) => {
    for (const details of document.querySelectorAll('details')) details.open = shown;
  }, open);

/** Words in the charts that lie over one another, as pairs. */
function touchingWords(page: Page): Promise<readonly string[]> {
  return page.evaluate(() =>
    [...document.querySelectorAll('svg')].flatMap((svg) => {
      const words = [...svg.querySelectorAll('text')].filter((text) => text.textContent !== '');
      const boxes = words.map((text) => text.getBoundingClientRect());
      return words.flatMap((text, index) =>
        words.slice(index + 1).flatMap((other, offset) => {
          const [one, two] = [boxes[index]!, boxes[index + 1 + offset]!];
          // Line boxes are a little taller than the letters in them.
          const spare = 2;
          const apart =
            one.right <= two.left ||
            two.right <= one.left ||
            one.bottom - spare <= two.top + spare ||
            two.bottom - spare <= one.top + spare;
          return apart ? [] : [`${text.textContent} | ${other.textContent}`];
        }),
      );
    }),
  );
}

describe('words in the pictures', () => {
  it.each([
    [1, 1280],
    [3, 375],
    [8, 768],
    [20, 1280],
    [20, 320],
  ])('never touch: %i reps a side at %i px', async (repsPerSide, width) => {
    const set = sampleSet({ repsPerSide, framesPerSecond: 10 });
    const text = renderSetPage(set.analysis, set.track, { filmHref: null, figureOnly: true });
    const { page } = await browser.open(await written(`reps-${repsPerSide}-${width}.html`, text), { width });
    expect(await touchingWords(page)).toEqual([]);
    await page.close();
  });
});

describe('print', () => {
  it('takes one or two sheets of A4', { timeout: 60_000 }, async () => {
    const { page } = await browser.open(pages.figure);
    const sheets = (await page.pdf({ preferCSSPageSize: true }))
      .toString('latin1')
      .match(/\/Type\s*\/Page\b(?!s)/g);
    expect(sheets?.length).toBeGreaterThanOrEqual(1);
    expect(sheets?.length).toBeLessThanOrEqual(2);
    await page.close();
  });
});
