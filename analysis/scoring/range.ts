import { median } from 'simple-statistics';
import type { RangeReport } from '../report/setReport.js';
import type { MeasuredDegrees, MeasuredRep } from '../segmentation/bout.js';

/** Under this share of the baseline, beyond uncertainty, a rep's range counts as shortened. */
const SHORTENED_SHARE = 0.9;
/** Under this share of the baseline, beyond uncertainty, a rep is partial (or, at the end, failed). */
const PARTIAL_SHARE = 0.6;
const REPS_IN_BASELINE = 3;
/**
 * Part of an angle's uncertainty that differs from rep to rep; the rest (view, keypoint bias) is shared by all reps of
 * a bout and drops out when they are compared. From the evaluation on rendered sets.
 */
const REP_TO_REP_SHARE = 0.6;

/** What the reps of a bout are compared with. */
export interface Baseline {
  readonly rangeDegrees: number;
  /** Median angle at each end, degrees; null where the baseline comes from earlier sets. */
  readonly stretchedDegrees: number | null;
  readonly contractedDegrees: number | null;
  readonly secondRangeDegrees: number | null;
}

/** The smaller of a rep's two excursions; null where either was not measured. */
export function rangeOf(rep: MeasuredRep): MeasuredDegrees | null {
  const { eccentricExcursion: down, concentricExcursion: up } = rep;
  if (down === null || up === null) return null;
  return down.degrees < up.degrees ? down : up;
}

/**
 * The median range of the first three complete reps, whatever their range; with fewer, the range of the lifter's
 * earlier sets; null where there is neither.
 *
 * @param reps the reps of the bout's first stage, in order
 */
export function baselineOf(reps: readonly MeasuredRep[], earlierDegrees: number | null): Baseline | null {
  const first = reps.filter((rep) => rep.complete && rangeOf(rep) !== null).slice(0, REPS_IN_BASELINE);
  if (first.length < REPS_IN_BASELINE) {
    if (earlierDegrees === null) return null;
    return {
      rangeDegrees: earlierDegrees,
      stretchedDegrees: null,
      contractedDegrees: null,
      secondRangeDegrees: null,
    };
  }
  const middle = (pick: (rep: MeasuredRep) => number | undefined): number | null => {
    const values = first.map(pick).filter((value) => value !== undefined);
    return values.length < REPS_IN_BASELINE ? null : median(values);
  };
  return {
    rangeDegrees: median(first.map((rep) => rangeOf(rep)!.degrees)),
    stretchedDegrees: middle((rep) => rep.stretched?.degrees),
    contractedDegrees: middle((rep) => rep.contracted?.degrees),
    secondRangeDegrees: middle((rep) => rep.secondRange?.degrees),
  };
}

/** A rep's range against the baseline; null as a whole where the view gave no degrees. */
export function scoreRange(rep: MeasuredRep, baseline: Baseline | null): RangeReport | null {
  const range = rangeOf(rep);
  if (range === null || rep.stretched === null || rep.contracted === null) return null;
  const shortened = rep.complete && baseline !== null && isShortened(rep, range, baseline);
  return {
    degrees: range.degrees,
    uncertaintyDegrees: range.uncertaintyDegrees,
    stretchedDegrees: rep.stretched.degrees,
    contractedDegrees: rep.contracted.degrees,
    ofBaseline: baseline === null ? null : range.degrees / baseline.rangeDegrees,
    shortened,
    shortenedAt: shortened ? shortenedEnd(rep, baseline) : null,
  };
}

function isShortened(rep: MeasuredRep, range: MeasuredDegrees, baseline: Baseline): boolean {
  if (fallsUnder(range, baseline.rangeDegrees, SHORTENED_SHARE)) return true;
  const second = rep.secondRange ?? null;
  return (
    second !== null &&
    baseline.secondRangeDegrees !== null &&
    fallsUnder(second, baseline.secondRangeDegrees, SHORTENED_SHARE)
  );
}

/** Under the share, and the drop from the baseline is more than the measurement's own uncertainty. */
function fallsUnder(value: MeasuredDegrees, baselineDegrees: number, share: number): boolean {
  const drop = baselineDegrees - value.degrees;
  return value.degrees < share * baselineDegrees && drop > REP_TO_REP_SHARE * value.uncertaintyDegrees;
}

/** The end that lost most; both where the lesser loss is at least half of the greater. */
function shortenedEnd(rep: MeasuredRep, baseline: Baseline): RangeReport['shortenedAt'] {
  if (baseline.stretchedDegrees === null || baseline.contractedDegrees === null) return null;
  const direction = Math.sign(baseline.contractedDegrees - baseline.stretchedDegrees);
  const atStretched = Math.max(0, direction * (rep.stretched!.degrees - baseline.stretchedDegrees));
  const atContracted = Math.max(0, direction * (baseline.contractedDegrees - rep.contracted!.degrees));
  if (atStretched === 0 && atContracted === 0) return null;
  if (Math.min(atStretched, atContracted) >= 0.5 * Math.max(atStretched, atContracted)) return 'both';
  return atStretched > atContracted ? 'stretched' : 'contracted';
}

/** Whether an excursion covers so little of the baseline, beyond uncertainty, that it is part of a rep only. */
export function isPartialExcursion(excursion: MeasuredDegrees | null, baseline: Baseline | null): boolean {
  if (excursion === null || baseline === null) return false;
  const most = excursion.degrees + REP_TO_REP_SHARE * excursion.uncertaintyDegrees;
  return most < PARTIAL_SHARE * baseline.rangeDegrees;
}

/** The number of the first of two flagged reps in a row, or of the final rep where that one is flagged; else null. */
export function firstOfTwoInARow(numbers: readonly number[], flagged: readonly boolean[]): number | null {
  for (let i = 0; i < flagged.length; i++) {
    if (flagged[i] === true && (i === flagged.length - 1 || flagged[i + 1] === true)) return numbers[i]!;
  }
  return null;
}
