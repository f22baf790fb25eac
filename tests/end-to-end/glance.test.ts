import { fileURLToPath } from 'node:url';
import { expect, test, vi } from 'vitest';
import { Failure } from '../../core/failure.js';
import { readFilmFacts } from '../../core/media/filmFacts.js';
import { locateFfmpeg } from '../../core/media/locateFfmpeg.js';
import { glanceAt } from '../../core/pose/glance.js';

vi.setConfig({ testTimeout: 120_000 });

const FILM = fileURLToPath(new URL('../../fixtures/films/goblet-squats.mp4', import.meta.url));

// The demo film is rendered: one lifter, in the picture all the time, in a room that is lit.
test('a glance sees the one lifter in a dozen pictures spread over the film', async () => {
  const ffmpeg = await locateFfmpeg();
  const film = await readFilmFacts(FILM, ffmpeg);
  const { looks, brightness } = await glanceAt(film, ffmpeg, { workers: 1 });
  expect(looks.length).toBeGreaterThanOrEqual(11);
  expect(looks.length).toBeLessThanOrEqual(13);
  expect(looks.every(({ people }) => people.length === 1)).toBe(true);
  expect(looks.at(-1)!.seconds).toBeGreaterThan(0.85 * film.durationSeconds);
  expect(brightness).toHaveLength(looks.length);
  for (const value of brightness) {
    expect(value).toBeGreaterThan(45);
    expect(value).toBeLessThan(255);
  }
});

test('a glance ends when it is interrupted', async () => {
  const ffmpeg = await locateFfmpeg();
  const film = await readFilmFacts(FILM, ffmpeg);
  const stop = new AbortController();
  const running = glanceAt(film, ffmpeg, { workers: 1, signal: stop.signal });
  stop.abort(new Failure('interrupted', 'Interrupted.'));
  await expect(running).rejects.toMatchObject({ kind: 'interrupted' });
});
