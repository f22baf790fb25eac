import type { TimedFrame } from '../media/film.js';
import { cutOut, type Window } from './cutOut.js';
import { InFlight } from './inFlight.js';
import { KEYPOINT_COUNT } from './keypoints.js';
import { MODEL_SIZE } from './modelFacts.js';
import { type Region, toPicture } from './region.js';
import type { RegionTrack } from './regionTrack.js';
import type { PoseModelName } from './track.js';
import { variedRegion } from './variedRegion.js';
import type { WorkerPool } from './workerPool.js';

/** Keypoints of one frame in pixels of the upright picture: 17 × (x, y, score). */
export interface MeasuredFrame {
  readonly seconds: number;
  readonly points: Float32Array;
}

export interface Measurement {
  readonly framesInFilm: number;
  readonly frames: readonly MeasuredFrame[];
}

export interface MeasureOptions {
  readonly model: PoseModelName;
  /** What the frames show of the upright picture. */
  readonly window: Window;
  readonly regionAt: RegionTrack;
  /** Frames closer than this to the last one measured are passed over, seconds; 0 measures every frame. */
  readonly minimumIntervalSeconds: number;
  readonly onFrame: (done: number, seconds: number) => void;
}

/** Measures the lifter in every frame of a stream, each frame on its own. */
export async function measureFrames(
  frames: AsyncIterable<TimedFrame>,
  pool: WorkerPool,
  options: MeasureOptions,
): Promise<Measurement> {
  const measured: MeasuredFrame[] = [];
  const inFlight = new InFlight(2 * pool.workers + 1);
  const { model } = options;
  let framesInFilm = 0;
  let index = 0;
  let done = 0;
  let last = Number.NEGATIVE_INFINITY;
  for await (const frame of frames) {
    framesInFilm += 1;
    const { seconds } = frame;
    if (seconds <= last || seconds - last < options.minimumIntervalSeconds - TIME_ROUNDING) continue;
    last = seconds;
    const at = index++;
    const region = variedRegion(options.regionAt(seconds), framesInFilm);
    const crop = cutOut(frame, options.window, region, MODEL_SIZE[model]);
    await inFlight.add(async () => {
      const [points] = await pool.run({ kind: 'measure', model, crop });
      measured[at] = { seconds, points: inPicture(points!, region) };
      onFrameDone();
    });
  }
  await inFlight.settle();
  return { framesInFilm, frames: measured };

  function onFrameDone(): void {
    options.onFrame(++done, last);
  }
}

/** Container times are rounded to their time base: frames of a 30 fps film may lie 0.033 s apart. */
export const TIME_ROUNDING = 0.002;

/** Keypoints of a cut-out in pixels of the upright picture. */
export function inPicture(points: Float32Array, region: Region): Float32Array {
  const result = new Float32Array(points.length);
  for (let keypoint = 0; keypoint < KEYPOINT_COUNT; keypoint++) {
    const at = keypoint * 3;
    const { x, y } = toPicture(region, points[at]!, points[at + 1]!);
    result[at] = x;
    result[at + 1] = y;
    result[at + 2] = points[at + 2]!;
  }
  return result;
}
