import type { FilmFacts, TimedFrame } from '../media/film.js';
import type { Rectangle } from '../media/pictureFilters.js';
import { planDecode } from './decodePlan.js';
import { KEYPOINT_COUNT } from './keypoints.js';
import { fitted } from './letterbox.js';
import { chooseLifter, type LifterPointer } from './lifter.js';
import { LOOK_INTERVAL_SECONDS, lookAround } from './lookAround.js';
import { type MeasuredFrame, measureFrames } from './measureFrames.js';
import { measureWhereItMoves } from './measureWhereItMoves.js';
import { DETECTOR_SIZE, MODEL_OF_QUALITY, MODEL_SIZE } from './modelFacts.js';
import { movingPart } from './movingPart.js';
import type { PictureSize } from './region.js';
import { trackRegions } from './regionTrack.js';
import { samplingRules } from './sampling.js';
import type { PoseTrack, Quality } from './track.js';
import { roundTrack } from './trackFile.js';
import { variedRegion } from './variedRegion.js';
import type { WorkerPool } from './workerPool.js';

/** Opens one decode of the film. */
export type OpenFrames = (options: {
  readonly width: number;
  readonly height: number;
  readonly oneEverySeconds?: number;
  readonly region?: Rectangle;
  /** Within the part that was asked for; all of it by default. */
  readonly fromSeconds?: number;
  readonly toSeconds?: number;
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
  /** Where the part of the film that is read begins, seconds; 0 by default. */
  readonly startSeconds?: number;
  /** Length of the part of the film that is read, seconds; null where unknown. */
  readonly lengthSeconds: number | null;
  readonly lifter: LifterPointer | null;
  readonly onProgress: (progress: PoseProgress) => void;
}

/** Time between the frames that `standard` measures in any case. */
const SPARSE_INTERVAL_SECONDS = 0.1;
/** Qualities other than `full` read at most this many frames a second. */
const FRAMES_A_SECOND = 30;

/**
 * Follows the lifter through a film in two decodes: a coarse one that finds who lifts, where and when, and a fine
 * one that measures the frames inside the region found. Of a long film only the part in which the lifter moves is
 * decoded again.
 */
export async function trackFrames(
  film: FilmFacts,
  openFrames: OpenFrames,
  pool: WorkerPool,
  options: TrackOptions,
): Promise<PoseTrack> {
  const picture: PictureSize = { width: film.width, height: film.height };
  const { onProgress, lengthSeconds } = options;
  // Slow motion is followed at the pace of the movement, not of the film.
  const slow = film.slowMotionFactor;

  const lookInterval = LOOK_INTERVAL_SECONDS * slow;
  const looks = await lookAround(
    openFrames({ ...fitted(picture, DETECTOR_SIZE), oneEverySeconds: lookInterval }),
    picture,
    pool,
    (done) => onProgress({ stage: 'looking', done, total: framesIn(lengthSeconds, lookInterval) }),
  );
  // The people detector is not needed any more.
  await pool.renew();
  const realLooks = looks.map((look) => ({ ...look, seconds: look.seconds / slow }));
  const pointer = options.lifter && { ...options.lifter, seconds: options.lifter.seconds / slow };
  const lifter = chooseLifter(realLooks, picture, pointer);
  const realRegionAt = trackRegions(lifter.sightings, picture);
  const regionAt: typeof realRegionAt = (seconds) => realRegionAt(seconds / slow);

  const model = MODEL_OF_QUALITY[options.quality];
  const minimumIntervalSeconds = options.quality === 'full' ? 0 : slow / FRAMES_A_SECOND;
  const interval = Math.max(minimumIntervalSeconds, 1 / film.frameRate);
  const { startSeconds = 0 } = options;
  const part = movingPart(
    lifter.sightings.map((sighting) => ({ ...sighting, seconds: sighting.seconds * slow })),
    startSeconds,
    lengthSeconds,
  );
  const firstSecond = part?.fromSeconds ?? looks[0]?.seconds ?? 0;
  const partSeconds = part === null ? lengthSeconds : part.toSeconds - part.fromSeconds;
  const total = (done: number, seconds: number) =>
    options.quality === 'standard'
      ? sampledTotal(done, seconds - firstSecond + interval, partSeconds)
      : framesIn(partSeconds, interval);
  const plan = planDecode(
    picture,
    looks.map((look) => regionAt(look.seconds)),
    MODEL_SIZE[model],
  );
  const { left: x, top: y, ...extent } = plan.window;
  const frames = openFrames({
    ...{ width: plan.width, height: plan.height, region: { x, y, ...extent } },
    ...part,
  });
  const firstStored = film.firstStoredSeconds ?? 0;
  const measuring = {
    model,
    window: plan.window,
    regionAt: (seconds: number) => variedRegion(regionAt(seconds), (seconds - firstStored) / slow),
    minimumIntervalSeconds,
    onFrame: (done: number, seconds: number) =>
      onProgress({ stage: 'measuring', done, total: total(done, seconds) }),
  };
  const measurement =
    options.quality === 'standard'
      ? await measureWhereItMoves(frames, pool, {
          ...measuring,
          rules: samplingRules(lifter.sightings, slow),
          sparseIntervalSeconds: SPARSE_INTERVAL_SECONDS * slow,
        })
      : await measureFrames(frames, pool, measuring);
  const leftOutSeconds = part === null ? 0 : lengthSeconds! - (part.toSeconds - part.fromSeconds);
  return roundTrack({
    model,
    quality: options.quality,
    ...picture,
    // Frames that were not decoded again are counted by the film's average rate.
    framesInFilm: measurement.framesInFilm + Math.round(leftOutSeconds * film.frameRate),
    ...columns(measurement.frames),
    people: { medianCount: lifter.medianCount, lifterDoubtful: lifter.doubtful },
  });
}

function framesIn(seconds: number | null, interval: number): number | null {
  return seconds === null ? null : Math.max(1, Math.round(seconds / interval));
}

/** Least share of the film from which the rest is estimated. */
const TELLING_SHARE = 0.02;

/** Where not every frame is measured, how far the film has been read tells how many are still to come. */
function sampledTotal(done: number, readSeconds: number, partSeconds: number | null): number | null {
  const share = partSeconds === null ? 0 : readSeconds / partSeconds;
  return share > TELLING_SHARE ? Math.max(done, Math.round(done / Math.min(1, share))) : null;
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
