import type { TimedFrame } from '../media/film.js';
import type { Window } from './cutOut.js';
import { cutOuts, type FrameCutOut } from './cutOuts.js';
import { InFlight } from './inFlight.js';
import { KEYPOINT_COUNT } from './keypoints.js';
import { MODEL_SIZE } from './modelFacts.js';
import { type Region, toPicture } from './region.js';
import type { RegionTrack } from './regionTrack.js';
import type { PoseModelName } from './track.js';
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
  /** Told after each frame how many are done, and up to where the film has been read. */
  readonly onFrame: (done: number, seconds: number) => void;
}

/** Measures the lifter in every frame of a stream, each frame on its own. */
export async function measureFrames(
  frames: AsyncIterable<TimedFrame>,
  pool: WorkerPool,
  options: MeasureOptions,
): Promise<Measurement> {
  const measurer = frameMeasurer(frames, pool, options);
  const inFlight = new InFlight(2 * pool.workers + 1);
  const measured: MeasuredFrame[] = [];
  let index = 0;
  for await (const cutOut of measurer.cutOuts) {
    const at = index++;
    await inFlight.add(async () => {
      measured[at] = await measurer.measure(cutOut);
    });
  }
  await inFlight.settle();
  return { framesInFilm: measurer.framesInFilm(), frames: measured };
}

/** What every way of choosing frames shares: cutting them out, having them measured, counting. */
export interface FrameMeasurer {
  readonly cutOuts: AsyncIterable<FrameCutOut>;
  measure(cutOut: FrameCutOut): Promise<MeasuredFrame>;
  /** Frames that the film has handed out so far. */
  framesInFilm(): number;
}

export function frameMeasurer(
  frames: AsyncIterable<TimedFrame>,
  pool: WorkerPool,
  { model, onFrame, ...cutting }: MeasureOptions,
): FrameMeasurer {
  let framesInFilm = 0;
  let readSeconds = Number.NEGATIVE_INFINITY;
  let done = 0;
  return {
    cutOuts: cutOuts(frames, {
      ...cutting,
      size: MODEL_SIZE[model],
      onFrame: (seconds) => {
        framesInFilm += 1;
        readSeconds = seconds;
      },
    }),
    async measure({ seconds, region, crop }) {
      const [points] = await pool.run({ kind: 'measure', model, crop });
      onFrame(++done, readSeconds);
      return { seconds, points: inPicture(points!, region) };
    },
    framesInFilm: () => framesInFilm,
  };
}

/** Keypoints of a cut-out in pixels of the upright picture. */
function inPicture(points: Float32Array, region: Region): Float32Array {
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
