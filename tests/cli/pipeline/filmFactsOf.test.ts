import {
  appendFileSync,
  copyFileSync,
  mkdirSync,
  mkdtempSync,
  readdirSync,
  rmSync,
  writeFileSync,
} from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { parsePointInFilm } from '../../../cli/options/values.js';
import { cacheReport } from '../../../cli/output/cacheReport.js';
import { ffmpegWhenNeeded } from '../../../cli/pipeline/ffmpegWhenNeeded.js';
import { filmFactsOf } from '../../../cli/pipeline/filmFactsOf.js';
import { openFilm } from '../../../cli/pipeline/openFilm.js';
import { readFilmFacts } from '../../../core/media/filmFacts.js';
import { locateFfmpeg } from '../../../core/media/locateFfmpeg.js';

const FILM = 'fixtures/films/single-arm-rows.mp4';
const ASK = { quality: 'standard' } as const;

let home: string;
let film: string;
let searches: number;
let homeBefore: string | undefined;
const findFfmpeg = () => {
  searches += 1;
  return locateFfmpeg();
};

beforeEach(() => {
  homeBefore = process.env['TEMPOFILM_HOME'];
  home = mkdtempSync(join(tmpdir(), 'tempofilm-facts-'));
  process.env['TEMPOFILM_HOME'] = home;
  film = join(home, 'rows.mp4');
  copyFileSync(FILM, film);
  searches = 0;
});
afterEach(() => {
  if (homeBefore === undefined) delete process.env['TEMPOFILM_HOME'];
  else process.env['TEMPOFILM_HOME'] = homeBefore;
  rmSync(home, { recursive: true });
});

/** The one file of facts that is kept. */
function keptFile(): string {
  const names = readdirSync(join(home, 'cache')).filter((name) => name.endsWith('.film-facts'));
  expect(names).toHaveLength(1);
  return join(home, 'cache', names[0]!);
}

describe('facts of a film', () => {
  it('are read once, and the same again without ffmpeg', async () => {
    const read = await filmFactsOf(film, findFfmpeg, {});
    expect(read).toEqual(await readFilmFacts(film, await locateFfmpeg()));
    const again = await filmFactsOf(film, findFfmpeg, {});
    expect(again).toEqual(read);
    // A saved set stores them in this order.
    expect(JSON.stringify(again)).toBe(JSON.stringify(read));
    expect(searches).toBe(1);
  });

  it('are read anew where the film changed, or what is kept of it is damaged', async () => {
    await filmFactsOf(film, findFfmpeg, {});
    writeFileSync(keptFile(), '{"width": 3}');
    const read = await filmFactsOf(film, findFfmpeg, {});
    expect(searches).toBe(2);
    // Free space at the end of an MP4 film, as ISO/IEC 14496-12 has it: another file, the same film.
    appendFileSync(film, Buffer.from([0, 0, 0, 8, ...Buffer.from('free')]));
    expect(await filmFactsOf(film, findFfmpeg, {})).toEqual(read);
    expect(searches).toBe(3);
  });

  it('are asked of an ffmpeg that is named', async () => {
    await filmFactsOf(film, findFfmpeg, {});
    await filmFactsOf(film, findFfmpeg, { ffmpeg: 'ffmpeg' });
    expect(searches).toBe(2);
  });

  it('come all the same where nothing can be kept', async () => {
    writeFileSync(join(home, 'cache'), 'a file in the place of the folder');
    expect((await filmFactsOf(film, findFfmpeg, {})).width).toBeGreaterThan(0);
  });

  it('never hide that the film is gone', async () => {
    await filmFactsOf(film, findFfmpeg, {});
    rmSync(film);
    await expect(filmFactsOf(film, findFfmpeg, {})).rejects.toMatchObject({
      kind: 'film',
      message: expect.stringContaining('There is no film'),
    });
    mkdirSync(film);
    await expect(filmFactsOf(film, findFfmpeg, {})).rejects.toMatchObject({
      kind: 'film',
      message: expect.stringContaining('is a folder'),
    });
  });
});

describe('a film whose facts are kept', () => {
  it('takes --speed-factor as one that is read, and is kept without it', async () => {
    const plain = await openFilm(film, findFfmpeg, ASK);
    const slow = await openFilm(film, findFfmpeg, { ...ASK, speedFactor: 4 });
    expect(slow).toEqual({ ...plain, slowMotionFactor: 4, slowMotionDoubtful: false });
    expect(await openFilm(film, findFfmpeg, ASK)).toEqual(plain);
    expect(searches).toBe(1);
  });

  it('refuses what lies outside it', async () => {
    await openFilm(film, findFfmpeg, ASK);
    const outside = [{ from: 4000 }, { lifter: parsePointInFilm('0.5,0.5@4000') }];
    for (const asked of outside) {
      await expect(openFilm(film, findFfmpeg, { ...ASK, ...asked })).rejects.toMatchObject({
        kind: 'usage',
        message: expect.stringContaining('names 4000 s'),
      });
    }
    expect(searches).toBe(1);
  });
});

describe('ffmpeg when it is needed', () => {
  it('is looked for once', async () => {
    const find = await ffmpegWhenNeeded({});
    expect(await find()).toBe(await find());
  });

  it('is looked at right away where it is named', async () => {
    await expect(ffmpegWhenNeeded({ ffmpeg: join(home, 'none') })).rejects.toMatchObject({
      kind: 'installation',
      message: expect.stringContaining('--ffmpeg names'),
    });
  });
});

describe('what the cache command says', () => {
  it('counts films that were opened but not measured by their facts, and drops them', async () => {
    expect(await cacheReport(false)).toMatch(/^Nothing is kept in /);
    await filmFactsOf(film, findFfmpeg, {});
    expect(await cacheReport(false)).toMatch(/^The facts of 1 film, 1 KiB in .*, the oldest last used on \d/);
    writeFileSync(join(home, 'cache', 'a.pose-track'), Buffer.alloc(2048));
    expect(await cacheReport(false)).toMatch(/^1 measured film, 3 KiB in /);
    expect(await cacheReport(true)).toMatch(/^1 measured film dropped from /);
    expect(readdirSync(join(home, 'cache'))).toEqual([]);
  });
});
