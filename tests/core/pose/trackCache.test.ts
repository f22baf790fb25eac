import { mkdtemp, readdir, rm, truncate, utimes, writeFile } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import fc from 'fast-check';
import { afterEach, beforeEach, describe, expect, test } from 'vitest';
import { openTrackCache } from '../../../core/pose/trackCache.js';
import { encodeTrack, roundTrack } from '../../../core/pose/trackFile.js';
import { trackKey } from '../../../core/pose/trackKey.js';
import { anyTrack } from './inventedTrack.js';

const [first, second, third] = fc.sample(anyTrack, { numRuns: 3, seed: 11 }).map(roundTrack) as [
  ReturnType<typeof roundTrack>,
  ReturnType<typeof roundTrack>,
  ReturnType<typeof roundTrack>,
];
let folder: string;
beforeEach(async () => {
  folder = await mkdtemp(join(tmpdir(), 'tracks-'));
});
afterEach(() => rm(folder, { recursive: true }));

describe('cache of pose tracks', () => {
  test('gives back what it was given, and nothing it was not', async () => {
    const made = join(folder, 'made when needed');
    const cache = openTrackCache(made);
    expect(await cache.read('a')).toBeNull();
    expect(await cache.list()).toEqual([]);
    await cache.write('a', first);
    expect(await cache.read('a')).toEqual(first);
    expect((await cache.list()).map((entry) => entry.key)).toEqual(['a']);
    expect(await readdir(made)).toHaveLength(1);
  });

  test('a damaged file counts as absent and is replaced', async () => {
    const cache = openTrackCache(folder);
    await cache.write('a', first);
    await truncate(join(folder, 'a.pose-track'), 20);
    expect(await cache.read('a')).toBeNull();
    await cache.write('a', second);
    expect(await cache.read('a')).toEqual(second);
  });

  test('drops what was unused for longest', async () => {
    const sizes = [first, second, third].map((track) => encodeTrack(track).length);
    const roomy = openTrackCache(folder);
    await roomy.write('a', first);
    await roomy.write('b', second);
    const cache = openTrackCache(folder, sizes[0]! + sizes[2]!);
    await utimes(join(folder, 'a.pose-track'), 1000, 1000);
    await utimes(join(folder, 'b.pose-track'), 2000, 2000);
    await cache.read('a');
    await cache.write('c', third);
    expect((await cache.list()).map((entry) => entry.key).sort()).toEqual(['a', 'c']);
  });

  test('clears its own files only', async () => {
    const cache = openTrackCache(folder);
    await cache.write('a', first);
    await cache.write('b', second);
    await writeFile(join(folder, 'notes.txt'), 'mine');
    expect(await cache.clear()).toBe(2);
    expect(await readdir(folder)).toEqual(['notes.txt']);
  });
});

describe('key of a track', () => {
  test('changes with the film and the settings, not with the name of the file', async () => {
    const film = join(folder, 'a.mp4');
    const copy = join(folder, 'b.mp4');
    await writeFile(film, Buffer.alloc(3_000_000, 1));
    await writeFile(copy, Buffer.alloc(3_000_000, 1));
    const key = await trackKey(film, { quality: 'full' });
    expect(key).toMatch(/^[0-9a-f]{64}$/);
    expect(await trackKey(copy, { quality: 'full' })).toBe(key);
    const others = [
      await trackKey(film, { quality: 'quick' }),
      await trackKey(film, { quality: 'full', fromSeconds: 2 }),
      await trackKey(film, { quality: 'full', toSeconds: 2 }),
      await trackKey(film, { quality: 'full' }, 4),
      await trackKey(film, { quality: 'full', lifter: { x: 0.5, y: 0.5, seconds: 2 } }),
    ];
    await writeFile(copy, Buffer.concat([Buffer.alloc(2_999_999, 1), Buffer.from([2])]));
    others.push(await trackKey(copy, { quality: 'full' }));
    await writeFile(copy, Buffer.alloc(3_000_001, 1));
    others.push(await trackKey(copy, { quality: 'full' }));
    expect(new Set([key, ...others]).size).toBe(others.length + 1);
  });
});
