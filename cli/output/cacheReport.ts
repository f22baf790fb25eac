import type { KeptFile } from '../../core/keptFiles.js';
import { openFactsCache } from '../../core/media/factsCache.js';
import { openTrackCache } from '../../core/pose/trackCache.js';
import { cacheFolder } from '../folders.js';

/** What the caches of pose tracks and of films' facts hold, after clearing them where that is asked. */
export async function cacheReport(clear: boolean): Promise<string> {
  const folder = cacheFolder();
  const trackCache = openTrackCache(folder);
  const factsCache = openFactsCache(folder);
  if (clear) {
    const dropped = counted(await trackCache.clear(), await factsCache.clear());
    return `${dropped} dropped from ${folder}.\n`;
  }
  const tracks = await trackCache.list();
  const facts = await factsCache.list();
  const kept: readonly KeptFile[] = [...tracks, ...facts];
  if (kept.length === 0) return `Nothing is kept in ${folder}.\n`;
  const kibibytes = Math.ceil(kept.reduce((sum, { bytes }) => sum + bytes, 0) / 1024);
  const oldest = new Date(Math.min(...kept.map(({ usedAt }) => usedAt.getTime())));
  const since = oldest.toISOString().slice(0, 10);
  return `${counted(tracks.length, facts.length)}, ${kibibytes} KiB in ${folder}, the oldest last used on ${since}.\n`;
}

/** A film that was opened but never measured has facts alone. */
function counted(tracks: number, facts: number): string {
  if (tracks === 0 && facts > 0) return `The facts of ${facts === 1 ? '1 film' : `${facts} films`}`;
  return tracks === 1 ? '1 measured film' : `${tracks} measured films`;
}
