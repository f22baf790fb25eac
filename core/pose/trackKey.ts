import { CACHE_SAMPLE_BYTES, hashFilm } from '../media/hashFilm.js';
import type { EstimateOptions } from './estimateTrack.js';
import { MODEL_OF_QUALITY } from './modelFacts.js';
import { WEIGHT_FILES } from './weights.js';

/** Counted up whenever the same film and settings would give another track. */
export const TRACK_VERSION = 7;

/**
 * A name for the track a film and its settings give, without reading the whole film: its size and a hash of its
 * first, middle and last megabyte (a container's index lies at one end and changes with any frame), the model,
 * the settings that matter and the version of this code. The number of workers does not matter.
 *
 * @param slowMotionFactor of the film, by its own tags or as the user says.
 * @returns 64 hexadecimal digits.
 */
export async function trackKey(
  file: string,
  options: Pick<EstimateOptions, 'quality' | 'fromSeconds' | 'toSeconds' | 'lifter'>,
  slowMotionFactor = 1,
): Promise<string> {
  const hash = await hashFilm(file, CACHE_SAMPLE_BYTES);
  const { quality, fromSeconds = null, toSeconds = null, lifter = null } = options;
  const weights = WEIGHT_FILES[`${MODEL_OF_QUALITY[quality]}.bin`];
  // Slow motion is followed at the pace of the movement: another factor looks at other frames.
  const settings = { quality, fromSeconds, toSeconds, lifter, slowMotionFactor };
  hash.update(JSON.stringify({ TRACK_VERSION, ...settings, weights }));
  return hash.digest('hex');
}
