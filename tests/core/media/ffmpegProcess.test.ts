import { chmod, writeFile } from 'node:fs/promises';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, test, vi } from 'vitest';
import { startFfmpeg } from '../../../core/media/ffmpegProcess.js';
import { readFilmFacts } from '../../../core/media/filmFacts.js';
import type { Ffmpeg } from '../../../core/media/locateFfmpeg.js';
import { type FilmFolder, openFilmFolder, testPicture } from './makeFilm.js';

/** Other test files may keep both cores busy. */
vi.setConfig({ testTimeout: 60_000 });

let films: FilmFolder;
let film: string;
beforeAll(async () => {
  films = await openFilmFolder();
  film = await films.make('film.mp4', ...testPicture('160x90', 20, 1));
});
afterAll(() => films.remove());

/** A stand-in for ffmpeg that does what the script says. */
async function standIn(name: string, script: string): Promise<Ffmpeg> {
  const path = join(films.folder, name);
  await writeFile(path, `#!/bin/sh\n${script}\n`);
  await chmod(path, 0o755);
  return { ...films.ffmpeg, path };
}

describe('an ffmpeg that does not end', () => {
  test('is ended after the time it is given, and that is told', async () => {
    const ffmpeg = await standIn('hanging', 'exec sleep 1000');
    const start = performance.now();
    const run = startFfmpeg(ffmpeg, {
      ...{ inputArguments: [], input: { file: film }, outputArguments: [], output: 'none' },
      longestSeconds: 0.3,
    });
    expect(await run.exit).toMatchObject({ outOfTime: true, code: null, signal: 'SIGKILL' });
    expect(performance.now() - start).toBeLessThan(20_000);
  });

  test('is left alone where it ends in time', async () => {
    const run = startFfmpeg(films.ffmpeg, {
      ...{ inputArguments: [], input: { file: film }, outputArguments: ['-c', 'copy'], output: 'none' },
      longestSeconds: 50,
    });
    expect(await run.exit).toMatchObject({ outOfTime: false, code: 0 });
  });
});

test('an ffmpeg ended from outside before it described the film does not put the blame on the film', async () => {
  const ffmpeg = await standIn('killed', 'kill -KILL $$');
  await expect(readFilmFacts(film, ffmpeg)).rejects.toThrow(/ended from outside \(SIGKILL\)/);
});
