import { writeFile } from 'node:fs/promises';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, test, vi } from 'vitest';
import { readContainerFacts } from '../../../core/media/containerFacts.js';
import { readContainerFactsHere } from '../../../core/media/readContainer.js';
import { type FilmFolder, H264, openFilmFolder, testPicture } from './makeFilm.js';

vi.setConfig({ testTimeout: 60_000 });

let films: FilmFolder;
beforeAll(async () => {
  films = await openFilmFolder();
});
afterAll(() => films.remove());

describe('what a container says', () => {
  test('is the same in a thread of its own as in this one, and what the film was made with', async () => {
    const file = await films.make('plain.mp4', ...testPicture('160x90', 20, 1), ...H264);
    const here = await readContainerFactsHere(file);
    expect(here).toMatchObject({ rotationDegrees: 0, flipped: false, captureRate: null, creationDate: null });
    expect(here!.packetTimes).toHaveLength(20);
    here!.packetTimes.forEach((time, index) => void expect(time).toBeCloseTo(index / 20, 4));
    expect(here!.endSeconds).toBeCloseTo(1, 3);
    expect(await readContainerFacts(file)).toEqual(here);
  });

  test('is nothing where the file is no container', async () => {
    const file = join(films.folder, 'text.mp4');
    await writeFile(file, 'no film at all\n'.repeat(100));
    expect(await readContainerFactsHere(file)).toBeNull();
    expect(await readContainerFacts(file)).toBeNull();
  });
});
