import { mkdir, readdir, readFile, rm, stat, utimes } from 'node:fs/promises';
import { join } from 'node:path';
import { writeAside } from '../media/writeAside.js';
import type { PoseTrack } from './track.js';
import { decodeTrack, encodeTrack } from './trackFile.js';

/** Pose tracks kept in a folder, so that a film measured once is scored again at once. */
export interface TrackCache {
  readonly folder: string;
  /** The track kept under a key, or null; a damaged file counts as absent. */
  read(key: string): Promise<PoseTrack | null>;
  /** Keeps a track, and drops those unused for longest where the folder grows too large. */
  write(key: string, track: PoseTrack): Promise<void>;
  /** What is kept, the most recently used first. */
  list(): Promise<readonly CachedTrack[]>;
  /** Drops everything. @returns how many tracks there were. */
  clear(): Promise<number>;
}

export interface CachedTrack {
  readonly key: string;
  readonly bytes: number;
  readonly usedAt: Date;
}

const ENDING = '.pose-track';
const DEFAULT_MAXIMUM_BYTES = 256 * 1024 * 1024;

/** Opens the cache in a folder, which is made when the first track is written. */
export function openTrackCache(folder: string, maximumBytes: number = DEFAULT_MAXIMUM_BYTES): TrackCache {
  const fileOf = (key: string) => join(folder, `${key}${ENDING}`);

  const list = async (): Promise<readonly CachedTrack[]> => {
    const names = await readdir(folder).catch(() => []);
    const entries = await Promise.all(
      names
        .filter((name) => name.endsWith(ENDING) && !name.startsWith('.'))
        .map(async (name) => {
          const facts = await stat(join(folder, name)).catch(() => null);
          if (facts === null) return [];
          return [{ key: name.slice(0, -ENDING.length), bytes: facts.size, usedAt: facts.mtime }];
        }),
    );
    return entries
      .flat()
      .sort((a, b) => b.usedAt.getTime() - a.usedAt.getTime() || a.key.localeCompare(b.key));
  };

  return {
    folder,
    list,
    async read(key) {
      let track: PoseTrack;
      try {
        track = decodeTrack(await readFile(fileOf(key)));
      } catch {
        return null;
      }
      const now = new Date();
      await utimes(fileOf(key), now, now).catch(() => undefined);
      return track;
    },
    async write(key, track) {
      await mkdir(folder, { recursive: true });
      await writeAside(fileOf(key), encodeTrack(track), { force: true });
      let total = 0;
      for (const entry of await list()) {
        total += entry.bytes;
        // The track just written stays even where it is larger than the whole cache may be.
        if (total > maximumBytes && entry.key !== key) await rm(fileOf(entry.key), { force: true });
      }
    },
    async clear() {
      const kept = await list();
      for (const entry of kept) await rm(fileOf(entry.key), { force: true });
      return kept.length;
    },
  };
}
