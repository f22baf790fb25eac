import { openTrackCache } from '../../core/pose/trackCache.js';
import { cacheFolder } from '../folders.js';

/** What the cache of pose tracks holds, after clearing it where that is asked. */
export async function cacheReport(clear: boolean): Promise<string> {
  const cache = openTrackCache(cacheFolder());
  if (clear) return `${counted(await cache.clear())} dropped from ${cache.folder}.\n`;
  const tracks = await cache.list();
  if (tracks.length === 0) return `Nothing is kept in ${cache.folder}.\n`;
  const kibibytes = Math.ceil(tracks.reduce((sum, { bytes }) => sum + bytes, 0) / 1024);
  const oldest = tracks.at(-1)!.usedAt.toISOString().slice(0, 10);
  return `${counted(tracks.length)}, ${kibibytes} KiB in ${cache.folder}, the oldest last used on ${oldest}.\n`;
}

function counted(tracks: number): string {
  return tracks === 1 ? '1 measured film' : `${tracks} measured films`;
}
