import type { TimedFrame } from '../media/film.js';
import { cutOut } from './cutOut.js';
import {
  inPicture,
  type MeasuredFrame,
  type Measurement,
  type MeasureOptions,
  TIME_ROUNDING,
} from './measureFrames.js';
import { MODEL_SIZE } from './modelFacts.js';
import type { Region } from './region.js';
import type { SamplingRules } from './sampling.js';
import { variedRegion } from './variedRegion.js';
import type { WorkerPool } from './workerPool.js';

export interface SampledMeasureOptions extends MeasureOptions {
  readonly rules: SamplingRules;
  /** Time between the frames that are measured in any case, film seconds. */
  readonly sparseIntervalSeconds: number;
}

/** A frame cut out and waiting for the decision whether it is measured. */
interface Candidate {
  readonly seconds: number;
  readonly region: Region;
  readonly crop: Uint8Array;
}

/** The stretch from one frame that is measured in any case to just before the next. */
interface Cell {
  readonly seconds: number;
  readonly sparse: Promise<MeasuredFrame>;
  readonly between: Candidate[];
  complete?: Promise<readonly MeasuredFrame[]>;
}

/** Cells that may wait for decisions or inference before the decoder is held back. */
const MOST_OPEN_CELLS = 40;

/**
 * Measures a stream in two rounds: a sparse frame every fraction of a second, then all the rest wherever those show
 * movement.
 *
 * Every decision waits for the measurements it looks at and for no others, so that it does not depend on
 * which worker is faster. Cut-outs of a few seconds are held, never whole frames.
 */
export async function measureWhereItMoves(
  frames: AsyncIterable<TimedFrame>,
  pool: WorkerPool,
  options: SampledMeasureOptions,
): Promise<Measurement> {
  const { model, rules, minimumIntervalSeconds, sparseIntervalSeconds } = options;
  /** The cells that some decision may still look at, and how many came before them. */
  const cells: Cell[] = [];
  let forgotten = 0;
  const measured: MeasuredFrame[] = [];
  let framesInFilm = 0;
  let done = 0;
  let last = Number.NEGATIVE_INFINITY;
  let ended = false;
  /** How many cells to either side a decision looks at; cells are never shorter than the sparse interval. */
  const neighbours = Math.ceil(rules.reachSeconds / sparseIntervalSeconds) + 1;

  const measure = async ({ seconds, region, crop }: Candidate): Promise<MeasuredFrame> => {
    const [points] = await pool.run({ kind: 'measure', model, crop });
    options.onFrame(++done, last);
    return { seconds, points: inPicture(points!, region) };
  };
  const around = (index: number) =>
    cells.slice(Math.max(0, index - neighbours - forgotten), index + neighbours + 1 - forgotten);
  const endOf = (index: number) => cells[index + 1 - forgotten]?.seconds ?? last;
  const begun = () => forgotten + cells.length;

  /** Second round: the sparse frame of a cell, and the others where it moves. */
  const whole = (index: number): Promise<readonly MeasuredFrame[]> => {
    const cell = cells[index - forgotten]!;
    cell.complete ??= (async () => {
      const nearby = await Promise.all(around(index).map((one) => one.sparse));
      const own = await cell.sparse;
      const rest = cell.between.splice(0);
      if (rest.length === 0 || !rules.moves(nearby, cell.seconds, endOf(index))) return [own];
      return [own, ...(await Promise.all(rest.map(measure)))];
    })();
    return cell.complete;
  };

  let decided = 0;
  let collected = 0;
  /** Starts the decisions whose neighbours are all there, and waits for the oldest cells while too many are open. */
  const advance = async (): Promise<void> => {
    while (decided < begun() && (ended || decided + neighbours + 1 < begun())) {
      whole(decided++).catch(() => undefined);
    }
    while (collected < decided && (ended || begun() - collected > MOST_OPEN_CELLS)) {
      measured.push(...(await whole(collected++)));
      // No decision to come looks further back than this.
      for (; forgotten < collected - neighbours; forgotten++) cells.shift();
    }
  };

  for await (const frame of frames) {
    framesInFilm += 1;
    const { seconds } = frame;
    if (seconds <= last || seconds - last < minimumIntervalSeconds - TIME_ROUNDING) continue;
    last = seconds;
    const region = variedRegion(options.regionAt(seconds), framesInFilm);
    const candidate = { seconds, region, crop: cutOut(frame, options.window, region, MODEL_SIZE[model]) };
    const current = cells.at(-1);
    if (current !== undefined && seconds - current.seconds < sparseIntervalSeconds - TIME_ROUNDING) {
      current.between.push(candidate);
      continue;
    }
    const sparse = measure(candidate);
    sparse.catch(() => undefined);
    cells.push({ seconds, sparse, between: [] });
    await advance();
  }
  ended = true;
  await advance();
  return { framesInFilm, frames: measured };
}
