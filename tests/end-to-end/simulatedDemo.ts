import { join } from 'node:path';
import { openTrackCache } from '../../core/pose/trackCache.js';
import { trackKey } from '../../core/pose/trackKey.js';
import { USUAL_POSE_NOISE } from '../../fixtures/lifter/keypointNoise.js';
import { simulatedTrack } from '../../fixtures/lifter/keypoints.js';
import { DEMO_SCENES } from '../../fixtures/scenes/demoScenes.js';
import { slicedTrack } from '../slicedTrack.js';
import { PROJECT } from './command.js';

/** A demo film, which shows exactly what its scene says. */
export const demoFilm = (name: string) => join(PROJECT, 'fixtures/films', `${name}.mp4`);

/**
 * Puts what a pose model would see in a demo film into the cache under `home`, so that the command answers without
 * the minutes of the real model: the scene's own joints with the usual noise.
 */
export async function keepSimulatedTrack(
  name: string,
  home: string,
  part: { readonly fromSeconds?: number; readonly toSeconds?: number } = {},
): Promise<void> {
  const scene = DEMO_SCENES.find((candidate) => candidate.name === name)!;
  const { fromSeconds, toSeconds } = part;
  const track = slicedTrack(simulatedTrack(scene, USUAL_POSE_NOISE), fromSeconds ?? 0, toSeconds ?? Infinity);
  const key = await trackKey(demoFilm(name), {
    quality: 'standard',
    fromSeconds,
    toSeconds,
    lifter: undefined,
  });
  await openTrackCache(join(home, 'cache')).write(key, track);
}
