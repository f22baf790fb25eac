import { join } from 'node:path';
import type { PoseTrack } from '../../core/pose/track.js';
import { openTrackCache } from '../../core/pose/trackCache.js';
import { trackKey } from '../../core/pose/trackKey.js';
import { USUAL_POSE_NOISE } from '../../fixtures/lifter/keypointNoise.js';
import { simulatedTrack } from '../../fixtures/lifter/keypoints.js';
import { DEMO_SCENES } from '../../fixtures/scenes/demoScenes.js';
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
  const track = sliced(simulatedTrack(scene, USUAL_POSE_NOISE), fromSeconds ?? 0, toSeconds ?? Infinity);
  const key = await trackKey(demoFilm(name), {
    quality: 'standard',
    fromSeconds,
    toSeconds,
    lifter: undefined,
  });
  await openTrackCache(join(home, 'cache')).write(key, track);
}

function sliced(track: PoseTrack, fromSeconds: number, toSeconds: number): PoseTrack {
  const first = track.seconds.findIndex((seconds) => seconds >= fromSeconds);
  const after = track.seconds.findIndex((seconds) => seconds >= toSeconds);
  const last = after < 0 ? track.seconds.length : after;
  const points = (values: Float32Array) => values.slice(first * 17, last * 17);
  return {
    ...track,
    framesInFilm: last - first,
    seconds: track.seconds.slice(first, last),
    x: points(track.x),
    y: points(track.y),
    score: points(track.score),
  };
}
