import { afterAll, beforeAll, describe, expect, test, vi } from 'vitest';
import { requireDrawnText, subtitleFilter } from '../../../core/media/subtitleFilter.js';
import { type FilmFolder, openFilmFolder, standIn } from './makeFilm.js';

vi.setConfig({ testTimeout: 60_000 });

let films: FilmFolder;
beforeAll(async () => {
  films = await openFilmFolder();
});
afterAll(() => films.remove());

describe('drawing words', () => {
  test('works with the ffmpeg and the fonts of this machine', async () => {
    await expect(requireDrawnText(films.ffmpeg)).resolves.toBeUndefined();
  });

  test('without libass is named as what is missing', async () => {
    const { ffmpeg } = await standIn(films, `echo "No such filter: 'ass'" >&2\nexit 1`);
    await expect(requireDrawnText(ffmpeg)).rejects.toMatchObject({
      kind: 'installation',
      message: expect.stringContaining('without libass'),
    });
  });

  test('without any font is told from the black picture', async () => {
    const { ffmpeg } = await standIn(films, 'cat > /dev/null; head -c 4096 /dev/zero');
    await expect(requireDrawnText(ffmpeg)).rejects.toMatchObject({
      kind: 'installation',
      message: expect.stringContaining('font'),
    });
  });

  test('any other failure carries what ffmpeg said', async () => {
    const { ffmpeg } = await standIn(films, 'echo "the disk is on fire" >&2\nexit 1');
    await expect(requireDrawnText(ffmpeg)).rejects.toThrow('the disk is on fire');
  });

  // ffmpeg-filters, "Notes on filtergraph escaping": once for the option, once for the graph.
  test('names of scripts are quoted for both levels of a filter', () => {
    expect(subtitleFilter('/tmp/a.ass')).toBe('ass=filename=/tmp/a.ass');
    expect(subtitleFilter("/tmp/it's: b,c.ass")).toBe("ass=filename=/tmp/it\\\\\\'s\\\\: b\\,c.ass");
  });
});
