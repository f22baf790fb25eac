import { Failure } from '../../core/failure.js';
import type { FilmFacts } from '../../core/media/film.js';
import type { EstimateOptions } from '../../core/pose/estimateTrack.js';
import type { PoseTrack } from '../../core/pose/track.js';
import { openTrackCache } from '../../core/pose/trackCache.js';
import { trackKey } from '../../core/pose/trackKey.js';
import { cacheFolder } from '../folders.js';
import { interruption } from '../interruption.js';
import type { FilmOptions } from '../options/filmOptions.js';
import type { FindFfmpeg } from './ffmpegWhenNeeded.js';
import { lifterPointer, nobodyThere } from './lifterPointer.js';
import type { FilmProgress } from './progress.js';

/**
 * The pose track of a film: the one kept from an earlier run where film and settings are the same, else measured
 * now and kept.
 *
 * @throws Failure as `estimatePoseTrack` does, a point at nobody repeated as it was given, and (installation) where
 *   there is no ffmpeg and it is needed.
 */
export async function poseTrackOf(
  film: FilmFacts,
  findFfmpeg: FindFfmpeg,
  options: FilmOptions,
  progress: FilmProgress,
): Promise<PoseTrack> {
  const settings: EstimateOptions = {
    quality: options.quality,
    fromSeconds: options.from,
    toSeconds: options.to,
    lifter: options.lifter === undefined ? undefined : lifterPointer(options.lifter, film),
    workers: options.workers,
    accelerator: options.accelerator,
  };
  const cache = openTrackCache(cacheFolder());
  const key = await trackKey(film.file, settings, film.slowMotionFactor);
  const kept = await cache.read(key);
  if (kept !== null) return kept;
  const { estimatePoseTrack } = await import('../../core/pose/estimateTrack.js');
  try {
    const track = await estimatePoseTrack(film, await findFfmpeg(), {
      ...settings,
      signal: interruption,
      onProgress: progress.update,
      onWarning: progress.note,
    });
    await cache
      .write(key, track)
      .catch(() => progress.note('The measurement could not be kept in the cache folder.'));
    return track;
  } catch (error) {
    // Where the estimate finds fault with what the user said, it is the point: they know it as they wrote it.
    if (options.lifter !== undefined && error instanceof Failure && error.kind === 'usage')
      throw nobodyThere(options.lifter, film);
    throw error;
  } finally {
    progress.stop();
  }
}
