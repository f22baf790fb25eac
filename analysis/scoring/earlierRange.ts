import { median } from 'simple-statistics';
import type { Stage } from '../plan/plan.js';
import type { BoutReport } from '../report/setReport.js';

/** The baseline of one earlier bout of the lifter, with what it takes to tell whether a bout is like it. */
export interface EarlierRange {
  readonly side: BoutReport['side'];
  readonly facing: BoutReport['view']['facing'];
  readonly degreesOffSide: number;
  /** The planned stage that its reps belong to; null where none was planned. */
  readonly stage: Stage | null;
  readonly degrees: number;
  /** Half width of the 95 % interval of one rep's range. */
  readonly uncertaintyDegrees: number;
}

/** A baseline from earlier sets of the lifter. */
export interface HistoryBaseline {
  readonly degrees: number;
  readonly uncertaintyDegrees: number;
  /** How many earlier sets it is the median of. */
  readonly sets: number;
}

/** Views whose angle differs less than this bend degrees by no more than the measurement does (about 2°). */
export const LIKE_VIEW_DEGREES = 15;

/** What a lifter reached long ago says little of today, so only so many of the latest sets count. */
const LATEST_SETS = 5;

/**
 * The median baseline of the latest like sets: the same side, filmed from about the same view, in a stage with the
 * same planned tempo. Null where there is none.
 *
 * @param earlier of one exercise and lifter, in order of recording.
 */
export function baselineOfEarlierSets(
  earlier: readonly EarlierRange[],
  bout: Pick<EarlierRange, 'side' | 'facing' | 'degreesOffSide' | 'stage'>,
): HistoryBaseline | null {
  const like = earlier
    .filter(
      (one) =>
        one.side === bout.side &&
        one.facing === bout.facing &&
        Math.abs(one.degreesOffSide - bout.degreesOffSide) <= LIKE_VIEW_DEGREES &&
        stageKey(one.stage) === stageKey(bout.stage),
    )
    .slice(-LATEST_SETS);
  if (like.length === 0) return null;
  return {
    degrees: median(like.map((one) => one.degrees)),
    // What a camera place adds may be the same in every set, so more sets do not lessen it.
    uncertaintyDegrees: median(like.map((one) => one.uncertaintyDegrees)),
    sets: like.length,
  };
}

/** How many reps were planned does not change how far one goes. */
function stageKey(stage: Stage | null): string {
  return JSON.stringify([stage?.tempo ?? null, stage?.partials === true]);
}
