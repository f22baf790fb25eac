/**
 * How the speed of a move runs from its first to its last instant, as share of its time: four families, since
 * people brake, accelerate and let go in different ways.
 *
 * - `ramped`: a level stretch, which may lean (`lean` > 0: quicker towards the end), between a starting and a
 *   braking ramp; the ramps' lengths are shares of the whole time.
 * - `stepped`: one speed, then another from `stepAt` on (a slow lowering whose end is dropped), between two ramps.
 * - `arched`: speed ∝ u^start · (1 − u)^end, which covers smooth moves and long fading ends.
 * - `fading`: off at once, then slower and slower to the end, (1 − u)^power; or the reverse.
 */
export type MoveShape =
  | { readonly family: 'ramped'; readonly startRamp: number; readonly endRamp: number; readonly lean: number }
  | {
      readonly family: 'stepped';
      readonly startRamp: number;
      readonly endRamp: number;
      readonly stepAt: number;
      /** Speed after the step over speed before it. */
      readonly ratio: number;
    }
  | { readonly family: 'arched'; readonly start: number; readonly end: number }
  | {
      readonly family: 'fading';
      readonly ramp: number;
      readonly power: number;
      /** True where the move gathers speed and stops at once, false where it sets out at once and fades. */
      readonly gathers: boolean;
    };

/** A shape worked out on an even grid: entry `i` belongs to the share `i / CELLS` of the move's time. */
export interface ShapeTable {
  /** Speed relative to the mean speed of the whole move. */
  readonly speeds: Float64Array;
  /** Share of the way covered, 0 to 1. */
  readonly travelled: Float64Array;
}

const CELLS = 96;
/** Share of the time a change from one speed to another takes. */
const STEP_WIDTH = 0.12;

export function tabulate(shape: MoveShape): ShapeTable {
  const speeds = new Float64Array(CELLS + 1);
  for (let i = 0; i <= CELLS; i++) speeds[i] = rawSpeed(shape, i / CELLS);
  const travelled = new Float64Array(CELLS + 1);
  for (let i = 1; i <= CELLS; i++) travelled[i] = travelled[i - 1]! + (speeds[i - 1]! + speeds[i]!) / 2;
  const total = travelled[CELLS]!;
  for (let i = 0; i <= CELLS; i++) {
    travelled[i]! /= total;
    speeds[i]! *= CELLS / total;
  }
  return { speeds, travelled };
}

function rawSpeed(shape: MoveShape, share: number): number {
  if (shape.family === 'arched') {
    return share <= 0 || share >= 1 ? 0 : share ** shape.start * (1 - share) ** shape.end;
  }
  if (shape.family === 'fading') {
    const gone = shape.gathers ? 1 - share : share;
    return gone <= 0 || gone >= 1 ? 0 : rise(gone / shape.ramp) * (1 - gone) ** shape.power;
  }
  const level =
    shape.family === 'ramped'
      ? Math.max(0, 1 + shape.lean * (2 * share - 1))
      : 1 + (shape.ratio - 1) * rise((share - shape.stepAt) / STEP_WIDTH + 0.5);
  return level * rise(share / shape.startRamp) * rise((1 - share) / shape.endRamp);
}

/** A smooth step from 0 to 1. */
function rise(share: number): number {
  if (share >= 1) return 1;
  return share <= 0 ? 0 : 0.5 - 0.5 * Math.cos(Math.PI * share);
}

/**
 * Share of the way covered at a share of the time; 0 before the move and 1 after it.
 *
 * Between two entries a cubic with the table's own speeds at both ends (Hermite): along straight lines a fit would find
 * a lowest point of its own in every cell, a cell being 0.03 s of a move of three seconds, and rest in whichever is nearest.
 */
export function travelledAt(table: ShapeTable, share: number): number {
  const position = Math.min(1, Math.max(0, share)) * CELLS;
  const cell = Math.min(CELLS - 1, Math.floor(position));
  const gone = position - cell;
  const left = 1 - gone;
  const { travelled, speeds } = table;
  const levels =
    travelled[cell]! * left ** 2 * (1 + 2 * gone) + travelled[cell + 1]! * gone ** 2 * (1 + 2 * left);
  const slopes = (speeds[cell]! * left - speeds[cell + 1]! * gone) / CELLS;
  return levels + gone * left * slopes;
}
