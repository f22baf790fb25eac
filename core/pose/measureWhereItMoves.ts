import type { TimedFrame } from '../media/film.js';
import { TIME_ROUNDING } from './cutOuts.js';
import { frameMeasurer, type Measurement, type MeasureOptions } from './measureFrames.js';
import { MovingCells } from './movingCells.js';
import type { SamplingRules } from './sampling.js';
import type { WorkerPool } from './workerPool.js';

export interface SampledMeasureOptions extends MeasureOptions {
  readonly rules: SamplingRules;
  /** Time between the frames that are measured in any case, film seconds. */
  readonly sparseIntervalSeconds: number;
}

/**
 * Measures a stream in two rounds: a sparse frame every fraction of a second, then all the rest wherever those show
 * movement. Cut-outs of a few seconds are held, never whole frames.
 */
export async function measureWhereItMoves(
  frames: AsyncIterable<TimedFrame>,
  pool: WorkerPool,
  options: SampledMeasureOptions,
): Promise<Measurement> {
  const { rules, sparseIntervalSeconds } = options;
  const measurer = frameMeasurer(frames, pool, options);
  const cells = new MovingCells(measurer.measure, rules, sparseIntervalSeconds);
  let begun = Number.NEGATIVE_INFINITY;
  for await (const cutOut of measurer.cutOuts) {
    if (cutOut.seconds - begun < sparseIntervalSeconds - TIME_ROUNDING) {
      cells.add(cutOut);
    } else {
      begun = cutOut.seconds;
      await cells.begin(cutOut);
    }
  }
  return { frames: await cells.end(), framesInFilm: measurer.framesInFilm() };
}
