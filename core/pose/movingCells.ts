import type { FrameCutOut } from './cutOuts.js';
import type { MeasuredFrame } from './measureFrames.js';
import type { SamplingRules } from './sampling.js';

/** The stretch from one frame that is measured in any case to just before the next. */
interface Cell {
  readonly seconds: number;
  readonly sparse: Promise<MeasuredFrame>;
  /** Cut out and waiting for the decision whether they are measured. */
  readonly between: FrameCutOut[];
  complete?: Promise<readonly MeasuredFrame[]>;
}

/** Cells that may wait for decisions or inference before whoever brings frames is held back. */
const MOST_OPEN_CELLS = 40;

/**
 * Decides cell after cell whether the frames within it are measured.
 *
 * Every decision waits for the measurements it looks at and for no others, so that it does not depend on which worker
 * is faster.
 */
export class MovingCells {
  readonly #measure: (cutOut: FrameCutOut) => Promise<MeasuredFrame>;
  readonly #rules: SamplingRules;
  /** How many cells to either side a decision looks at; cells are never shorter than the sparse interval. */
  readonly #neighbours: number;
  /** The cells that some decision may still look at, and how many came before them. */
  readonly #cells: Cell[] = [];
  #forgotten = 0;
  /** How many cells are decided upon, and of how many the frames are collected. */
  #decided = 0;
  #collected = 0;
  readonly #measured: MeasuredFrame[] = [];
  #lastSeconds = Number.NEGATIVE_INFINITY;
  #ended = false;

  constructor(
    measure: (cutOut: FrameCutOut) => Promise<MeasuredFrame>,
    rules: SamplingRules,
    sparseIntervalSeconds: number,
  ) {
    this.#measure = measure;
    this.#rules = rules;
    this.#neighbours = Math.ceil(rules.reachSeconds / sparseIntervalSeconds) + 1;
  }

  /** Begins a cell with a frame that is measured in any case. */
  async begin(cutOut: FrameCutOut): Promise<void> {
    const sparse = this.#measure(cutOut);
    // Whoever waits for it hears of a failure; until then it must not end the program.
    sparse.catch(() => undefined);
    this.#cells.push({ seconds: cutOut.seconds, sparse, between: [] });
    this.#lastSeconds = cutOut.seconds;
    await this.#advance();
  }

  /** Adds a frame to the cell that was begun last. */
  add(cutOut: FrameCutOut): void {
    this.#cells.at(-1)!.between.push(cutOut);
    this.#lastSeconds = cutOut.seconds;
  }

  /** All measured frames in order of time, once no more are to come. */
  async end(): Promise<readonly MeasuredFrame[]> {
    this.#ended = true;
    await this.#advance();
    return this.#measured;
  }

  get #begun(): number {
    return this.#forgotten + this.#cells.length;
  }

  /** Starts the decisions whose neighbours are all there, and waits for the oldest cells while too many are open. */
  async #advance(): Promise<void> {
    while (
      this.#decided < this.#begun &&
      (this.#ended || this.#decided + this.#neighbours + 1 < this.#begun)
    ) {
      this.#whole(this.#decided++).catch(() => undefined);
    }
    while (
      this.#collected < this.#decided &&
      (this.#ended || this.#begun - this.#collected > MOST_OPEN_CELLS)
    ) {
      this.#measured.push(...(await this.#whole(this.#collected++)));
      // No decision to come looks further back than this.
      for (; this.#forgotten < this.#collected - this.#neighbours; this.#forgotten++) this.#cells.shift();
    }
  }

  /** The sparse frame of a cell, and the others where it moves. */
  #whole(index: number): Promise<readonly MeasuredFrame[]> {
    const cell = this.#cells[index - this.#forgotten]!;
    cell.complete ??= this.#decide(cell, index);
    return cell.complete;
  }

  async #decide(cell: Cell, index: number): Promise<readonly MeasuredFrame[]> {
    const around = this.#cells.slice(
      Math.max(0, index - this.#neighbours - this.#forgotten),
      index + this.#neighbours + 1 - this.#forgotten,
    );
    const endSeconds = this.#cells[index + 1 - this.#forgotten]?.seconds ?? this.#lastSeconds;
    const nearby = await Promise.all(around.map(({ sparse }) => sparse));
    const own = await cell.sparse;
    const rest = cell.between.splice(0);
    if (rest.length === 0 || !this.#rules.moves(nearby, cell.seconds, endSeconds)) return [own];
    return [own, ...(await Promise.all(rest.map(this.#measure)))];
  }
}
