import { appendFileSync, mkdirSync, mkdtempSync, rmSync, utimesSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { basename, join } from 'node:path';
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { answerFileOf, changedSince, settledFilms, waitingFilms } from '../../../cli/watch/newFilms.js';

let folder: string;
beforeEach(() => {
  folder = mkdtempSync(join(tmpdir(), 'tempofilm-watch-'));
});
afterEach(() => rmSync(folder, { recursive: true, force: true }));

function put(name: string, content = 'film', day = 1): string {
  const file = join(folder, name);
  writeFileSync(file, content);
  utimesSync(file, day, day);
  return file;
}

const names = async () => (await waitingFilms(folder)).map(({ file }) => basename(file));

describe('waitingFilms', () => {
  it('lists films without an answer, the oldest first', async () => {
    put('later.MOV', 'film', 3);
    put('first.mp4', 'film', 1);
    put('done.mp4', 'film', 2);
    writeFileSync(answerFileOf(join(folder, 'done.mp4')), 'Delivered 41 of 50.\n');
    expect(await names()).toEqual(['first.mp4', 'later.MOV']);
  });

  it('lists a film again that changed after its answer', async () => {
    const film = put('stalled.mp4');
    const answer = answerFileOf(film);
    writeFileSync(answer, 'This film could not be read.\n');
    expect(await names()).toEqual([]);
    utimesSync(answer, 2, 2);
    expect(await names()).toEqual(['stalled.mp4']);
  });

  it('leaves other files, folders and copies under way alone', async () => {
    put('plan.yaml');
    put('.row.mp4.part');
    put('.hidden.mp4');
    mkdirSync(join(folder, 'folder.mp4'));
    expect(await names()).toEqual([]);
  });
});

describe('changedSince', () => {
  it('tells a film that grew or went from one that stayed', async () => {
    const file = put('row.mp4');
    const [film] = await waitingFilms(folder);
    expect(await changedSince(film!)).toBe(false);
    appendFileSync(file, 'more');
    expect(await changedSince(film!)).toBe(true);
    rmSync(file);
    expect(await changedSince(film!)).toBe(true);
  });
});

describe('settledFilms', () => {
  it('takes a film that did not change since the last look', async () => {
    const file = put('row.mp4');
    const before = await waitingFilms(folder);
    expect(settledFilms(before, await waitingFilms(folder)).map((film) => film.file)).toEqual([file]);
  });

  it('waits for one that grew, came anew or has no content yet', async () => {
    const growing = put('growing.mp4');
    put('empty.mp4', '');
    const before = await waitingFilms(folder);
    appendFileSync(growing, 'more');
    put('new.mp4');
    expect(settledFilms(before, await waitingFilms(folder))).toEqual([]);
  });
});
