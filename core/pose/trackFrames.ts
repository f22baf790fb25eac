import type { FilmFacts, TimedFrame } from '../media/film.js';
import { wholeWindow } from './cutOut.js';
import { KEYPOINT_COUNT } from './keypoints.js';
import { fitted } from './letterbox.js';
import { chooseLifter, type LifterPointer } from './lifter.js';
import { LOOK_INTERVAL_SECONDS, lookAround } from './lookAround.js';
import { type MeasuredFrame, measureFrames } from './measureFrames.js';
import { DETECTOR_SIZE } from './peopleDetector.js';
import { MODEL_SIZE } from './poseModel.js';
import type { PictureSize } from './region.js';
import { type RegionTrack, trackRegions } from './regionTrack.js';
import type { Trail } from './sightings.js';
import type { PoseModelName, PoseTrack, Quality } from './track.js';
import type { WorkerPool } from './workerPool.js';

/** Opens one decode of the film. */
export type OpenFrames = (options: {
  readonly width: number;
  readonly height: number;
  readonly minimumIntervalSeconds: number;
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

export const MODEL_OF_QUALITY: Readonly<Record<Quality, PoseModelName>> = {
  quick: 'movenet-lightning',
  standard: 'movenet-thunder',
  full: 'movenet-thunder',
};

/** Qualities other than `full` read at most this many frames a second. */
const FRAMES_A_SECOND = 30;
/** The decoded picture shows the region this many times larger than the model needs, so that it is never enlarged. */
const OVERSAMPLING = 1.15;

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
  const total = (interval: number) =>
    options.lengthSeconds === null ? null : Math.max(1, Math.round(options.lengthSeconds / interval));

  const looks = await lookAround(
    openFrames({ ...fitted(picture, DETECTOR_SIZE), minimumIntervalSeconds: LOOK_INTERVAL_SECONDS }),
    picture,
    pool,
    (done) => options.onProgress({ stage: 'looking', done, total: total(LOOK_INTERVAL_SECONDS) }),
  );
  const lifter = chooseLifter(looks, picture, options.lifter);
  const regionAt = trackRegions(lifter.sightings, picture);

  const model = MODEL_OF_QUALITY[options.quality];
  const minimumIntervalSeconds = options.quality === 'full' ? 0 : 1 / FRAMES_A_SECOND;
  const interval = Math.max(minimumIntervalSeconds, 1 / film.frameRate);
  const measurement = await measureFrames(
    openFrames({ ...decodeSize(picture, lifter.sightings, regionAt, model), minimumIntervalSeconds: 0 }),
    pool,
    {
      model,
      window: wholeWindow(picture),
      regionAt,
      minimumIntervalSeconds,
      onFrame: (done) => options.onProgress({ stage: 'measuring', done, total: total(interval) }),
    },
  );
  return {
    model,
    quality: options.quality,
    ...picture,
    framesInFilm: measurement.framesInFilm,
    ...columns(measurement.frames),
    people: { medianCount: lifter.medianCount, lifterDoubtful: lifter.doubtful },
  };
}

/** Size to decode at: the smallest at which no region has to be enlarged for the model. */
function decodeSize(
  picture: PictureSize,
  sightings: Trail,
  regionAt: RegionTrack,
  model: PoseModelName,
): PictureSize {
  const sides = sightings.map((sighting) => regionAt(sighting.seconds).side);
  const smallest = sides.length === 0 ? Math.max(picture.width, picture.height) : Math.min(...sides);
  const scale = (OVERSAMPLING * MODEL_SIZE[model]) / smallest;
  return fitted(picture, Math.round(Math.max(picture.width, picture.height) * scale));
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
