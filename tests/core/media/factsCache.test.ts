import { mkdtemp, readdir, readFile, rm, truncate, writeFile } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterEach, beforeEach, describe, expect, test } from 'vitest';
import { factsKey, openFactsCache } from '../../../core/media/factsCache.js';
import type { FilmFacts } from '../../../core/media/film.js';

const FACTS: FilmFacts = {
  file: 'squats.mp4',
  recordedAt: '2026-03-02T18:04:11Z',
  durationSeconds: 62.4,
  width: 480,
  height: 640,
  frameRate: 29.97,
  variableFrameRate: true,
  slowMotionFactor: 4,
  slowMotionDoubtful: false,
  rotationDegrees: 90,
  flipped: false,
  highDynamicRange: true,
  codec: 'hevc',
  interlaced: false,
  container: 'mov,mp4,m4a,3gp,3g2,mj2',
  clockOffsetSeconds: 0,
  firstStoredSeconds: -0.5,
};

let folder: string;
beforeEach(async () => {
  folder = await mkdtemp(join(tmpdir(), 'facts-'));
});
afterEach(() => rm(folder, { recursive: true }));

describe('cache of films’ facts', () => {
  test('gives back what it was given, under the name the film has now', async () => {
    const cache = openFactsCache(join(folder, 'made when needed'));
    expect(await cache.read('a', 'squats.mp4')).toBeNull();
    expect(await cache.list()).toEqual([]);
    await cache.write('a', FACTS);
    expect(await cache.read('a', 'squats.mp4')).toEqual(FACTS);
    expect(await cache.read('a', 'moved/squats.mp4')).toEqual({ ...FACTS, file: 'moved/squats.mp4' });
    expect(await cache.read('b', 'squats.mp4')).toBeNull();
  });

  test('tells nobody where the film lay', async () => {
    await openFactsCache(folder).write('a', { ...FACTS, file: 'evenings/kim/squats.mp4' });
    expect(await readFile(join(folder, 'a.film-facts'), 'utf8')).not.toContain('kim');
  });

  test('a film that does not say when it was recorded is kept as one', async () => {
    const cache = openFactsCache(folder);
    await cache.write('a', { ...FACTS, recordedAt: null });
    expect((await cache.read('a', 'squats.mp4'))?.recordedAt).toBeNull();
  });

  const { file: _, ...kept } = FACTS;
  const { container: __, ...withoutContainer } = kept;
  test.each<[string, string]>([
    ['cut off', JSON.stringify(kept).slice(0, 100)],
    ['empty', ''],
    ['something else', '[1, 2]'],
    ['null', 'null'],
    ['without a field', JSON.stringify(withoutContainer)],
    ['with a field of a later version', JSON.stringify({ ...kept, lens: 'wide' })],
    ['a turn that is none', JSON.stringify({ ...kept, rotationDegrees: 45 })],
    ['text for a number', JSON.stringify({ ...kept, width: '480' })],
    ['a length below nothing', JSON.stringify({ ...kept, durationSeconds: -1 })],
    ['time that stands still', JSON.stringify({ ...kept, slowMotionFactor: 0 })],
  ])('%s counts as absent', async (_name, text) => {
    const cache = openFactsCache(folder);
    await writeFile(join(folder, 'a.film-facts'), text);
    expect(await cache.read('a', 'squats.mp4')).toBeNull();
    await cache.write('a', FACTS);
    expect(await cache.read('a', 'squats.mp4')).toEqual(FACTS);
  });

  test('keeps as many as there is room for, and clears its own files only', async () => {
    const bytes = JSON.stringify(kept).length;
    const cache = openFactsCache(folder, 2 * bytes);
    for (const key of ['a', 'b', 'c', 'd']) await cache.write(key, FACTS);
    expect(await cache.list()).toHaveLength(2);
    await writeFile(join(folder, 'a.pose-track'), 'a track');
    expect(await cache.clear()).toBe(2);
    expect(await readdir(folder)).toEqual(['a.pose-track']);
  });
});

describe('key of a film’s facts', () => {
  test('changes with what is in the film, not with its name', async () => {
    const film = join(folder, 'a.mp4');
    const copy = join(folder, 'b.mp4');
    await writeFile(film, Buffer.alloc(3_000_000, 1));
    await writeFile(copy, Buffer.alloc(3_000_000, 1));
    const key = await factsKey(film);
    expect(key).toMatch(/^[0-9a-f]{64}$/);
    expect(await factsKey(copy)).toBe(key);
    await writeFile(copy, Buffer.concat([Buffer.alloc(2_999_999, 1), Buffer.from([2])]));
    const changed = await factsKey(copy);
    await truncate(copy, 2_000_000);
    expect(new Set([key, changed, await factsKey(copy)]).size).toBe(3);
  });
});
