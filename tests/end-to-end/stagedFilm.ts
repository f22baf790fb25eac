import { execFileSync } from 'node:child_process';
import { join } from 'node:path';
import { locateFfmpeg } from '../../core/media/locateFfmpeg.js';
import { openTrackCache } from '../../core/pose/trackCache.js';
import { trackKey } from '../../core/pose/trackKey.js';
import { frameTimes } from '../../fixtures/lifter/frameTimes.js';
import { USUAL_POSE_NOISE } from '../../fixtures/lifter/keypointNoise.js';
import { simulatedTrack } from '../../fixtures/lifter/keypoints.js';
import { stagingOf } from '../../fixtures/lifter/postures/stagings.js';
import type { SceneRep, TimelineItem } from '../../fixtures/lifter/scene.js';
import { scene } from '../../fixtures/lifter/sceneDefaults.js';

export interface StagedFilm {
  readonly name: string;
  readonly exercise: string;
  /** ISO 8601; null: the film does not say. */
  readonly recordedAt: string | null;
  /** Lowering seconds of each rep; two lists: left, then turned round and right. */
  readonly loweringSeconds: readonly number[] | readonly [readonly number[], readonly number[]];
}

/**
 * A film whose pose track lies in the cache already, as if it had been measured: the track is that of the synthetic
 * lifter seen through noisy keypoints, the picture a test picture, so that no pose model needs to run.
 *
 * @param home folder that `TEMPOFILM_HOME` names.
 */
export async function stageFilm(home: string, folder: string, film: StagedFilm): Promise<string> {
  const { exercise, loweringSeconds, recordedAt } = film;
  const seed = [...film.name].reduce((sum, letter) => sum + letter.codePointAt(0)!, 1);
  const staged = scene({ name: film.name, seed, exercise, timeline: timelineOf(exercise, loweringSeconds) });
  const file = join(folder, film.name);
  await makeFilm(file, frameTimes(staged).at(-1)!.filmSeconds + 1 / 30, recordedAt);
  const key = await trackKey(file, { quality: 'standard' });
  await openTrackCache(join(home, 'cache')).write(key, simulatedTrack(staged, USUAL_POSE_NOISE));
  return file;
}

function timelineOf(
  exercise: string,
  loweringSeconds: StagedFilm['loweringSeconds'],
): readonly TimelineItem[] {
  const [first] = loweringSeconds;
  const bout = (
    side: 'left' | 'right' | 'both',
    seconds: readonly number[],
    turned: boolean,
  ): TimelineItem => ({
    kind: 'bout',
    side,
    reps: seconds.map((eccentric) => repOf(exercise, eccentric)),
    settleSeconds: 1.2,
    afterSeconds: 1.2,
    turned,
  });
  if (typeof first === 'number') return [bout('both', loweringSeconds as readonly number[], false)];
  const [left, right] = loweringSeconds as readonly [readonly number[], readonly number[]];
  return [
    bout('right', right, false),
    { kind: 'idle', seconds: 8, activity: 'stand' },
    bout('left', left, true),
  ];
}

function repOf(exercise: string, eccentric: number): SceneRep {
  const { stretched, contracted } = stagingOf(exercise);
  return {
    seconds: { eccentric, stretchedHold: 0.6, concentric: 1, contractedHold: 0.7 },
    stretchedDegrees: stretched,
    contractedDegrees: contracted,
    profile: 'constant-with-ramps',
  };
}

async function makeFilm(file: string, seconds: number, recordedAt: string | null): Promise<void> {
  const ffmpeg = await locateFfmpeg();
  execFileSync(
    ffmpeg.path,
    ['-hide_banner', '-loglevel', 'error', '-f', 'lavfi']
      .concat(['-i', `testsrc=size=72x96:rate=5:duration=${seconds}`])
      .concat(['-c:v', 'libx264', '-preset', 'ultrafast', '-pix_fmt', 'yuv420p'])
      .concat(recordedAt === null ? [] : ['-metadata', `creation_time=${recordedAt}`])
      .concat([file]),
  );
}
