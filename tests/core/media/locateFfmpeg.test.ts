import { writeFile } from 'node:fs/promises';
import { afterAll, afterEach, beforeAll, describe, expect, test, vi } from 'vitest';
import { describeVersion, locateFfmpeg } from '../../../core/media/locateFfmpeg.js';
import { type FilmFolder, openFilmFolder, standIn } from './makeFilm.js';

let films: FilmFolder;
beforeAll(async () => {
  films = await openFilmFolder();
});
afterAll(() => films.remove());
afterEach(() => vi.unstubAllEnvs());

describe('where ffmpeg is looked for', () => {
  test('the option comes first, then the environment, then the rest', async () => {
    const option = await standIn(films);
    const environment = await standIn(films);
    vi.stubEnv('FFMPEG_PATH', environment.ffmpeg.path);
    expect(await locateFfmpeg({ explicitPath: option.ffmpeg.path })).toMatchObject({
      source: 'option',
      path: option.ffmpeg.path,
    });
    expect(await locateFfmpeg()).toMatchObject({ source: 'environment', path: environment.ffmpeg.path });
    vi.stubEnv('FFMPEG_PATH', '');
    expect((await locateFfmpeg()).source).not.toBe('environment');
  });

  test('a chosen path that does not work is never replaced in silence', async () => {
    await writeFile(films.path('no-program'), 'text', { mode: 0o644 });
    const other = await standIn(films, 'echo hello');
    for (const path of [films.path('missing'), films.path('no-program'), other.ffmpeg.path, films.folder]) {
      await expect(locateFfmpeg({ explicitPath: path })).rejects.toMatchObject({
        kind: 'installation',
        message: expect.stringContaining('--ffmpeg'),
      });
      vi.stubEnv('FFMPEG_PATH', path);
      await expect(locateFfmpeg()).rejects.toMatchObject({
        kind: 'installation',
        message: expect.stringContaining('FFMPEG_PATH'),
      });
      vi.unstubAllEnvs();
    }
  });

  test('with nothing on PATH the build of 2018 is the last resort, with a warning', async () => {
    vi.stubEnv('PATH', films.folder);
    vi.stubEnv('FFMPEG_PATH', '');
    const found = await locateFfmpeg().catch((error: unknown) => error);
    if (found instanceof Error) {
      // Where neither optional package is installed, the message names every place.
      expect(found).toMatchObject({ kind: 'installation' });
      for (const place of ['--ffmpeg', 'FFMPEG_PATH', 'ffmpeg-static', 'PATH', '@ffmpeg-installer']) {
        expect(found.message).toContain(place);
      }
      return;
    }
    expect(['ffmpeg-static', 'bundled-2018']).toContain((found as { source: string }).source);
    if ((found as { source: string }).source === 'bundled-2018') {
      expect(found).toMatchObject({
        passthroughArguments: ['-vsync', 'passthrough'],
        warning: expect.stringMatching(/^[^\n]*2018[^\n]*$/),
      });
    }
  });
});

describe('which arguments a version takes', () => {
  // libavutil versions of the releases: ffmpeg.org/download.html (4.4: 56.70, 5.0: 57.17, 5.1: 57.28, 6.1: 58.29,
  // 7.0: 59.8). -fps_mode: ffmpeg's Changelog, version 5.1. N-47683 is what the build of 2018 prints.
  test.each([
    ['4.4.2-0ubuntu0.22.04.1', '56. 70.100', '-vsync'],
    ['5.0.1', '57. 17.100', '-vsync'],
    ['5.1.9-0+deb12u1', '57. 28.100', '-fps_mode'],
    ['6.1.1-static', '58. 29.100', '-fps_mode'],
    ['7.0.2', '59.  8.100', '-fps_mode'],
    ['N-47683-g0e8eb07980-static', '56. 24.101', '-vsync'],
    ['n7.1-dev-1234', '59. 39.100', '-fps_mode'],
  ])('%s', (version, library, expected) => {
    const text = `ffmpeg version ${version} Copyright (c) the FFmpeg developers\nlibavutil      ${library} / ${library}\n`;
    expect(describeVersion(text)).toEqual({ version, passthroughArguments: [expected, 'passthrough'] });
  });

  test('another program is no ffmpeg', () => {
    expect(describeVersion('ffprobe version 5.1.9\n')).toBeNull();
  });
});
