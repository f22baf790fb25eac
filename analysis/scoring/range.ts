import { median } from 'simple-statistics';
import type { Plan } from '../plan/plan.js';
import type { RangeReport, RepReport } from '../report/setReport.js';
import type { MeasuredDegrees, MeasuredRep } from '../segmentation/bout.js';
import type { HistoryBaseline } from './earlierRange.js';
import { firstOfTwoInARow } from './firstOfTwoInARow.js';

/** What the range of a bout's reps is held against. Degrees. */
export interface Baseline {
  readonly degrees: number;
  /** What is left of its uncertainty when a rep is compared with it. */
  readonly uncertaintyDegrees: number;
  /**
   * Error that the baseline and the reps have in common (view, offset of the keypoints), so that it drops out when
   * they are compared: 0 where they have none, null where it is not known.
   */
  readonly sharedDegrees: number | null;
  /** Usual angle at each end, or null where the baseline is only a number from history. */
  readonly ends: { readonly stretched: number; readonly contracted: number } | null;
  /** The same for the range of the second angle; null where it was not measured. */
  readonly second: { readonly degrees: number; readonly uncertaintyDegrees: number } | null;
  /** How many earlier sets of the lifter it comes from; null where it is the bout's own first reps. */
  readonly earlierSets: number | null;
}

/** How many complete reps make a bout's own baseline. */
export const BASELINE_REPS = 3;
/** Variance of the median of three normal values over that of one (order statistics of the normal). */
const MEDIAN_OF_THREE_VARIANCE = 0.4487;
/**
 * Part of an angle's uncertainty that differs from rep to rep, where the shared part is not known. From the evaluation
 * on rendered sets.
 */
const REP_TO_REP_SHARE = 0.6;
/** No rep is placed more surely than this against another. */
const LEAST_REP_TO_REP_DEGREES = 1;
export const SHORTENED_BELOW = 0.9;
const PARTIAL_BELOW = 0.6;
const MOVEMENT_BELOW = 0.3;
/** An end counts as shortened when it holds this share of what was lost. */
const SHARE_OF_LOSS = 0.3;

/** The range of a rep: the smaller of its two excursions; null where either was not measured. */
export function rangeOfRep(rep: MeasuredRep): MeasuredDegrees | null {
  const { eccentricExcursion, concentricExcursion } = rep;
  if (eccentricExcursion === null || concentricExcursion === null) return null;
  return eccentricExcursion.degrees <= concentricExcursion.degrees ? eccentricExcursion : concentricExcursion;
}

/**
 * The baseline of a bout: the median range of the first three complete reps of its first stage, whatever their
 * range; with fewer, the lifter's earlier sets; else null.
 *
 * @param sharedDegrees half width of the 95 % interval of the error that all reps of the bout share; null: not known.
 */
export function findBaseline(
  firstStageReps: readonly MeasuredRep[],
  history: HistoryBaseline | null,
  sharedDegrees: number | null,
): Baseline | null {
  const first = firstStageReps
    .filter((rep) => rep.complete && rangeOfRep(rep) !== null)
    .slice(0, BASELINE_REPS);
  if (first.length < BASELINE_REPS) {
    if (history === null) return null;
    const { degrees, uncertaintyDegrees, sets } = history;
    // Another day's film shares no error with this one.
    return { degrees, uncertaintyDegrees, sharedDegrees: 0, ends: null, second: null, earlierSets: sets };
  }
  const stretched = medianOf(
    first.map((rep) => rep.stretched),
    sharedDegrees,
  );
  const contracted = medianOf(
    first.map((rep) => rep.contracted),
    sharedDegrees,
  );
  return {
    ...medianOf(first.map(rangeOfRep), sharedDegrees)!,
    sharedDegrees,
    ends:
      stretched === null || contracted === null
        ? null
        : { stretched: stretched.degrees, contracted: contracted.degrees },
    second: medianOf(
      first.map((rep) => rep.secondRange ?? null),
      null,
    ),
    earlierSets: null,
  };
}

/**
 * A rep's range against the baseline; null as a whole where the view gave no degrees.
 *
 * @param plannedPartial true where the plan wants part of the range, which is then no fault.
 */
export function scoreRange(
  rep: MeasuredRep,
  baseline: Baseline | null,
  plannedPartial: boolean,
): RangeReport | null {
  const range = rangeOfRep(rep);
  if (range === null || rep.stretched === null || rep.contracted === null) return null;
  const shortened =
    rep.complete && !plannedPartial && baseline !== null && isRepShortened(rep, range, baseline);
  return {
    degrees: range.degrees,
    uncertaintyDegrees: range.uncertaintyDegrees,
    stretchedDegrees: rep.stretched.degrees,
    contractedDegrees: rep.contracted.degrees,
    // A rep cut by the film shows no whole range.
    ofBaseline: baseline === null || !rep.complete ? null : range.degrees / baseline.degrees,
    shortened,
    shortenedAt: shortened ? shortenedEnd(rep.stretched, rep.contracted, baseline) : null,
  };
}

/** A complete rep whose range stays under 60 % of the baseline. */
export function isPartialRep(rep: MeasuredRep, baseline: Baseline | null): boolean {
  const range = rangeOfRep(rep);
  return rep.complete && baseline !== null && range !== null && isPartialRange(range, baseline);
}

/** Whether a range is under 90 % of the baseline and the drop exceeds its own uncertainty. */
export function isShortened(range: MeasuredDegrees, baseline: ComparedBaseline): boolean {
  const drop = baseline.degrees - range.degrees;
  return range.degrees < SHORTENED_BELOW * baseline.degrees && drop > dropUncertainty(range, baseline, 1);
}

/** Whether a range lies under 60 % of the baseline beyond uncertainty. */
export function isPartialRange(range: MeasuredDegrees, baseline: Baseline): boolean {
  return isBelowShare(range, baseline, PARTIAL_BELOW);
}

/** Whether a range lies under 30 % of the baseline beyond uncertainty: movement, not a rep. */
export function isMovementOnly(range: MeasuredDegrees, baseline: Baseline): boolean {
  return isBelowShare(range, baseline, MOVEMENT_BELOW);
}

/** The number of the first shortened rep of two in a row, or of a shortened final one; planned partials aside. */
export function firstShortenedRep(reps: readonly RepReport[], plan: Plan | null): number | null {
  const compared = reps.filter((rep) => {
    const stage = rep.stage === null ? undefined : plan?.stages[rep.stage - 1];
    return rep.complete && rep.range !== null && stage?.partials !== true;
  });
  const place = firstOfTwoInARow(compared.map((rep) => rep.range!.shortened));
  return place === null ? null : compared[place]!.number;
}

/** Reps shorter than the baseline although the range of the bout held: single ones, none of them the last. */
export function loneShortenedReps(reps: readonly RepReport[]): readonly number[] {
  return reps.filter((rep) => rep.range?.shortened === true).map((rep) => rep.number);
}

/** Rows, pulldowns and pull-ups shorten when elbow or shoulder does. */
function isRepShortened(rep: MeasuredRep, range: MeasuredDegrees, baseline: Baseline): boolean {
  if (isShortened(range, baseline)) return true;
  const second = rep.secondRange ?? null;
  return (
    second !== null &&
    baseline.second !== null &&
    isShortened(second, { ...baseline.second, sharedDegrees: null })
  );
}

/** The end that lost the range, in the driving angle; null where it lost none or the baseline has no ends. */
function shortenedEnd(
  stretched: MeasuredDegrees,
  contracted: MeasuredDegrees,
  { ends }: Baseline,
): RangeReport['shortenedAt'] {
  if (ends === null) return null;
  const outward = Math.sign(ends.contracted - ends.stretched);
  const lostStretched = Math.max(0, outward * (stretched.degrees - ends.stretched));
  const lostContracted = Math.max(0, outward * (ends.contracted - contracted.degrees));
  const lost = lostStretched + lostContracted;
  if (lost === 0) return null;
  if (Math.min(lostStretched, lostContracted) >= SHARE_OF_LOSS * lost) return 'both';
  return lostStretched > lostContracted ? 'stretched' : 'contracted';
}

type ComparedBaseline = Pick<Baseline, 'degrees' | 'uncertaintyDegrees' | 'sharedDegrees'>;

/** Median of three with what of its uncertainty differs from rep to rep; null unless all were measured. */
function medianOf(
  values: readonly (MeasuredDegrees | null)[],
  sharedDegrees: number | null,
): MeasuredDegrees | null {
  const seen = values.filter((value) => value !== null);
  if (seen.length < BASELINE_REPS) return null;
  const squares = seen.map((value) => repToRep(value.uncertaintyDegrees, sharedDegrees) ** 2);
  const meanSquare = squares.reduce((sum, square) => sum + square, 0) / squares.length;
  return {
    degrees: median(seen.map((value) => value.degrees)),
    uncertaintyDegrees: Math.sqrt(MEDIAN_OF_THREE_VARIANCE * meanSquare),
  };
}

function isBelowShare(range: MeasuredDegrees, baseline: Baseline, share: number): boolean {
  return share * baseline.degrees - range.degrees > dropUncertainty(range, baseline, share);
}

function dropUncertainty(range: MeasuredDegrees, baseline: ComparedBaseline, share: number): number {
  return Math.hypot(
    repToRep(range.uncertaintyDegrees, baseline.sharedDegrees),
    share * baseline.uncertaintyDegrees,
  );
}

/** What of an uncertainty is left when two reps are compared. */
function repToRep(uncertaintyDegrees: number, sharedDegrees: number | null): number {
  if (sharedDegrees === 0) return uncertaintyDegrees;
  if (sharedDegrees === null || sharedDegrees >= uncertaintyDegrees) {
    return REP_TO_REP_SHARE * uncertaintyDegrees;
  }
  return Math.max(LEAST_REP_TO_REP_DEGREES, Math.sqrt(uncertaintyDegrees ** 2 - sharedDegrees ** 2));
}
