import { parseHTML } from 'linkedom';
import { describe, expect, it } from 'vitest';
import { renderSetPage } from '../../../../cli/views/page/setPage.js';
import { sampleSet } from './sampleSet.js';

const HOSTILE = '<img src=x onerror=alert(1)>.mp4';

function pageOf(options: Parameters<typeof sampleSet>[0] = {}, filmHref: string | null = null) {
  const { analysis, track } = sampleSet(options);
  const text = renderSetPage(analysis, track, { filmHref, figureOnly: filmHref === null });
  return { text, document: parseHTML(text).document, analysis };
}

describe('renderSetPage', () => {
  it('says the headline first', () => {
    const { document, analysis } = pageOf();
    expect(document.querySelector('h1')?.textContent).toBe(analysis.report.headline);
  });

  it('has a row for every rep, with a way to jump to it', () => {
    const { document } = pageOf();
    expect(document.querySelectorAll('table.reps tbody tr:not(.plan)')).toHaveLength(16);
    expect(document.querySelectorAll('table.reps button[data-seconds]')).toHaveLength(16);
  });

  it('gives every picture a caption in words and its numbers as a table', () => {
    const { document } = pageOf();
    const pictures = [...document.querySelectorAll('figure.picture')];
    expect(pictures.length).toBeGreaterThanOrEqual(8);
    for (const figure of pictures) {
      expect(figure.querySelector('figcaption')?.textContent?.length).toBeGreaterThan(20);
      expect(figure.querySelectorAll('details table tbody tr').length).toBeGreaterThan(0);
      for (const chart of figure.querySelectorAll('.chart svg')) {
        expect(chart.getAttribute('aria-label')).toBeTruthy();
      }
    }
  });

  it('marks every verdict with the sign it has in the terminal, in the tables and in the charts', () => {
    const { document, analysis } = pageOf();
    const verdicts = analysis.report.bouts.flatMap((bout) =>
      bout.reps.flatMap((rep) => rep.phases.map((phase) => phase.verdict)),
    );
    const texts = (selector: string) =>
      [...document.querySelectorAll(selector)].map((element) => element.textContent ?? '');
    const inTables = texts('table.reps td');
    const inCharts = texts('figure.picture.wide svg text');
    // The signs as README.md explains them.
    for (const [verdict, sign] of [
      ['met', '✓'],
      ['short', '▼'],
      ['long', '▲'],
      ['unclear', '?'],
    ] as const) {
      const count = verdicts.filter((one) => one === verdict).length;
      expect(inTables.filter((text) => text.includes(sign) && text.endsWith(verdict))).toHaveLength(count);
      expect(inCharts.filter((text) => text === sign)).toHaveLength(count);
    }
    expect(document.querySelector('.key')?.textContent).toContain('✓ met, ▼ short, ▲ long, ? unclear');
    expect(texts('table.reps, figcaption').join(' ')).not.toMatch(/[●◇]|diamond/);
  });

  it('says of a single shorter rep in the middle what its mark in the table says', () => {
    const { analysis, track } = sampleSet();
    const [bout] = analysis.report.bouts;
    bout!.summary.firstShortenedRep = null;
    for (const rep of bout!.reps)
      rep.range = { ...rep.range!, shortened: rep.number === 3, ofBaseline: 0.896 };
    const { document } = parseHTML(renderSetPage(analysis, track, { filmHref: null, figureOnly: true }));
    const rows = [...document.querySelectorAll('table.reps tbody tr:not(.plan)')];
    expect(rows[2]?.textContent).toMatch(/89\.6 % ▼ shorter/);
    expect(rows[3]?.textContent).not.toContain('shorter');
    const captions = [...document.querySelectorAll('figcaption')].map((caption) => caption.textContent);
    expect(captions.some((caption) => caption?.startsWith('Range held but for rep 3:'))).toBe(true);
  });

  it('keeps a film name with markup in it as text', () => {
    const { text, document } = pageOf({ file: HOSTILE }, './a.mp4');
    expect(text).not.toContain('<img');
    expect(document.querySelector('img')).toBeNull();
    expect(document.querySelector('.overline')?.textContent).toContain(HOSTILE);
  });

  it('asks for nothing outside itself', () => {
    const { text, document } = pageOf();
    const addresses = text.match(/(?:https?:)?\/\/[a-z0-9.-]+\.[a-z]+[^"'\s)]*/gi) ?? [];
    // The name of the SVG vocabulary is an identifier, not an address that is asked for.
    expect(addresses.filter((address) => !address.startsWith('http://www.w3.org/'))).toEqual([]);
    expect(text).not.toMatch(/@import|<link[^>]+stylesheet/);
    const policy = document.querySelector('meta[http-equiv]')?.getAttribute('content');
    expect(policy).toContain("default-src 'none'");
  });

  it('says which tolerance the plan was held against', () => {
    const { analysis, track } = sampleSet();
    const options = { filmHref: null, figureOnly: true };
    const usual = renderSetPage(analysis, track, options);
    expect(usual).toContain('0.3 s or 15 % of the plan');
    const asked = renderSetPage(analysis, track, { ...options, tolerance: { seconds: 0.5, share: 0 } });
    expect(asked).toContain('the tolerance (0.5 s)');
    expect(asked).not.toContain('15 % of the plan');
  });

  it('shows a note as text, and no folder of the film', () => {
    const { analysis, track } = sampleSet({ file: '/home/climber/films/row.mp4' });
    const note = '<b onclick=alert(1)>heels raised</b>';
    const { document } = parseHTML(
      renderSetPage(analysis, track, { filmHref: null, figureOnly: true, about: { note } }),
    );
    expect(document.querySelector('.facts')?.textContent).toContain(note);
    expect(document.querySelector('b')).toBeNull();
    expect(document.documentElement.textContent).toContain('row.mp4');
    expect(document.documentElement.textContent).not.toContain('climber');
  });

  it('says who lifted, when, and what was amended, as text', () => {
    const { analysis, track } = sampleSet();
    analysis.report.film.recordedAt = null;
    const about = {
      ...{ lifter: 'Kim <i>', warmUp: true, filmed: '2 Mar 2026 (date of the file)' },
      amendments: ['Amended: the movement at 0:06 was dropped by you (<b>no rep</b>).'],
    };
    const { document } = parseHTML(
      renderSetPage(analysis, track, { filmHref: null, figureOnly: true, about }),
    );
    const header = document.querySelector('header')!;
    expect(header.querySelector('.overline')?.textContent).toContain('2 Mar 2026 (date of the file)');
    expect(header.textContent).toContain('Kim <i>');
    expect(header.textContent).toContain('Warm-up');
    expect(header.querySelector('.findings')?.textContent).toContain('(<b>no rep</b>)');
    expect(document.querySelector('b, i')).toBeNull();
  });

  it('shows no film with figureOnly, whatever its address', () => {
    const { analysis, track } = sampleSet();
    const text = renderSetPage(analysis, track, { filmHref: 'row.mp4', figureOnly: true });
    expect(text).not.toContain('<video');
  });

  it('keeps an embedded film inside the page', () => {
    const { analysis, track } = sampleSet();
    const text = renderSetPage(analysis, track, {
      filmHref: 'row.mp4',
      embeddedFilm: { type: 'video/mp4', base64: 'QUJD' },
      figureOnly: false,
    });
    expect(text).toContain('QUJD');
    expect(text).not.toContain('src="row.mp4"');
  });

  it('stays under 1.5 MB for twenty reps a side at 60 frames a second', () => {
    const { text } = pageOf({ repsPerSide: 20, framesPerSecond: 60 });
    expect(Buffer.byteLength(text)).toBeLessThan(1_500_000);
  });

  it('answers for a film without reps with its findings', () => {
    const { analysis, track } = sampleSet();
    const report = { ...analysis.report, bouts: [], rests: [], symmetry: null, headline: 'No reps found.' };
    const { document } = parseHTML(
      renderSetPage({ report, curves: [] }, track, { filmHref: null, figureOnly: true }),
    );
    expect(document.querySelector('h1')?.textContent).toBe('No reps found.');
    expect(document.querySelector('.findings')).not.toBeNull();
  });
});
