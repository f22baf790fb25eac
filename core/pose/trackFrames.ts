import type { FilmFacts, TimedFrame } from '../media/film.js';
import type { Region as PicturePart } from '../media/pictureFilters.js';
import { planDecode } from './decodePlan.js';
import { KEYPOINT_COUNT } from './keypoints.js';
import { fitted } from './letterbox.js';
import { chooseLifter, type LifterPointer } from './lifter.js';
import { LOOK_INTERVAL_SECONDS, lookAround } from './lookAround.js';
import { type MeasuredFrame, measureFrames } from './measureFrames.js';
import { measureWhereItMoves } from './measureWhereItMoves.js';
import { DETECTOR_SIZE, MODEL_OF_QUALITY, MODEL_SIZE } from './modelFacts.js';
import type { PictureSize } from './region.js';
import { trackRegions } from './regionTrack.js';
import { samplingRules } from './sampling.js';
import type { PoseTrack, Quality } from './track.js';
import { roundTrack } from './trackFile.js';
import type { WorkerPool } from './workerPool.js';

/** Opens one decode of the film. */
export type OpenFrames = (options: {
  readonly width: number;
  readonly height: number;
  readonly minimumIntervalSeconds?: number;
  readonly region?: PicturePart;
}) => AsyncIterable<TimedFrame>;

export interface PoseProgress {
  /** `looking` finds the people; `measuring` reads the lifter's keypoints. */
  readonly stage: 'looking' | 'measuring';
  readonly done: number;
  /** Estimated from the film's length; null where that is unknown. */
  readonly total: number | null;
}

export interface TrackOptions {
  readonly quality: Quality;
  /** Length of the part of the film that is read, seconds; null where unknown. */
  readonly lengthSeconds: number | null;
  readonly lifter: LifterPointer | null;
  readonly onProgress: (progress: PoseProgress) => void;
}

/** Time between the frames that `standard` measures in any case. */
const SPARSE_INTERVAL_SECONDS = 0.2;
/** Qualities other than `full` read at most this many frames a second. */
const FRAMES_A_SECOND = 30;
/**
 * Follows the lifter through a film in two decodes: a coarse one that finds who lifts and where, and a fine
 * one that measures every frame inside the region found.
 */
export async function trackFrames(
  film: FilmFacts,
  openFrames: OpenFrames,
  pool: WorkerPool,
  options: TrackOptions,
): Promise<PoseTrack> {
  const picture: PictureSize = { width: film.width, height: film.height };
  const { onProgress, lengthSeconds } = options;
  const total = (interval: number) =>
    lengthSeconds === null ? null : Math.max(1, Math.round(lengthSeconds / interval));
  // Slow motion is followed at the pace of the movement, not of the film.
  const slow = film.slowMotionFactor;

  const lookInterval = LOOK_INTERVAL_SECONDS * slow;
  const looks = await lookAround(
    openFrames({ ...fitted(picture, DETECTOR_SIZE), minimumIntervalSeconds: lookInterval }),
    picture,
    pool,
    (done) => onProgress({ stage: 'looking', done, total: total(lookInterval) }),
  );
  const realLooks = looks.map((look) => ({ ...look, seconds: look.seconds / slow }));
  const pointer = options.lifter && { ...options.lifter, seconds: options.lifter.seconds / slow };
  const lifter = chooseLifter(realLooks, picture, pointer);
  const realRegionAt = trackRegions(lifter.sightings, picture);
  const regionAt: typeof realRegionAt = (seconds) => realRegionAt(seconds / slow);

  const model = MODEL_OF_QUALITY[options.quality];
  const minimumIntervalSeconds = options.quality === 'full' ? 0 : slow / FRAMES_A_SECOND;
  const interval = Math.max(minimumIntervalSeconds, 1 / film.frameRate);
  // Where not every frame is measured, how far the film has been read tells how many are still to come.
  const firstSecond = looks[0]?.seconds ?? 0;
  const measuringProgress = (done: number, seconds: number): PoseProgress => {
    const share = lengthSeconds === null ? 0 : (seconds - firstSecond + interval) / lengthSeconds;
    const sampled = share > 0.02 ? Math.max(done, Math.round(done / Math.min(1, share))) : null;
    return {
      stage: 'measuring',
      done,
      total: options.quality === 'standard' ? sampled : total(interval),
    };
  };
  const plan = planDecode(
    picture,
    looks.map((look) => regionAt(look.seconds)),
    MODEL_SIZE[model],
  );
  const { left: x, top: y, ...extent } = plan.window;
  const frames = openFrames({ width: plan.width, height: plan.height, region: { x, y, ...extent } });
  const measuring = {
    model,
    window: plan.window,
    regionAt,
    minimumIntervalSeconds,
    onFrame: (done: number, seconds: number) => onProgress(measuringProgress(done, seconds)),
  };
  const measurement =
    options.quality === 'standard'
      ? await measureWhereItMoves(frames, pool, {
          ...measuring,
          rules: samplingRules(lifter.sightings, slow),
          sparseIntervalSeconds: SPARSE_INTERVAL_SECONDS * slow,
        })
      : await measureFrames(frames, pool, measuring);
  return roundTrack({
    model,
    quality: options.quality,
    ...picture,
    framesInFilm: measurement.framesInFilm,
    ...columns(measurement.frames),
    people: { medianCount: lifter.medianCount, lifterDoubtful: lifter.doubtful },
  });
}

function columns(frames: readonly MeasuredFrame[]): Pick<PoseTrack, 'seconds' | 'x' | 'y' | 'score'> {
  const seconds = Float64Array.from(frames, (frame) => frame.seconds);
  const x = new Float32Array(frames.length * KEYPOINT_COUNT);
  const y = new Float32Array(frames.length * KEYPOINT_COUNT);
  const score = new Float32Array(frames.length * KEYPOINT_COUNT);
  frames.forEach(({ points }, frame) => {
    for (let keypoint = 0; keypoint < KEYPOINT_COUNT; keypoint++) {
      const at = frame * KEYPOINT_COUNT + keypoint;
      x[at] = points[keypoint * 3]!;
      y[at] = points[keypoint * 3 + 1]!;
      score[at] = points[keypoint * 3 + 2]!;
    }
  });
  return { seconds, x, y, score };
}
