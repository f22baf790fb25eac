import { mean, sampleVariance } from 'simple-statistics';
import type { BoutReport, RepReport, SymmetryReport } from '../report/setReport.js';
import { standardErrorOf, studentReach } from '../trends/distributions.js';
import { concentricOf, countsAsComplete, eccentricOf } from './fatigue.js';

type Measure = SymmetryReport['measures'][number];

/** One value of each rep of a side, with the half width of its 95 % interval. */
interface SideValues {
  readonly values: readonly number[];
  readonly uncertainties: readonly number[];
}

/**
 * Errors that all reps of one side share and the other side's do not, since the lifter turned round between them:
 * half widths of 95 % intervals, from the evaluation on rendered sets.
 */
const SHARED_DEGREES = 4;
const SHARED_SECONDS = 0.06;

/**
 * Left against right: for each measure the difference left minus right with a 95 % interval that combines the
 * spread from rep to rep with what the camera cannot tell, and the ratio left over right. A side is called different
 * only where the interval leaves out zero. Null unless both sides have complete reps.
 *
 * Method: Welch's interval for a difference of means, widened by the measurement's own shared error.
 */
export function compareSides(bouts: readonly BoutReport[]): SymmetryReport | null {
  const left = bouts.filter((bout) => bout.side === 'left');
  const right = bouts.filter((bout) => bout.side === 'right');
  const repsOf = (side: readonly BoutReport[]) => side.flatMap((bout) => bout.reps.filter(countsAsComplete));
  const [leftReps, rightReps] = [repsOf(left), repsOf(right)];
  if (leftReps.length === 0 || rightReps.length === 0) return null;
  const measures = [
    compare('range', 'degrees', rangesOf(leftReps), rangesOf(rightReps), SHARED_DEGREES),
    compare(
      'eccentric-seconds',
      'seconds',
      timesOf(leftReps, eccentricOf),
      timesOf(rightReps, eccentricOf),
      SHARED_SECONDS,
    ),
    compare(
      'concentric-seconds',
      'seconds',
      timesOf(leftReps, concentricOf),
      timesOf(rightReps, concentricOf),
      SHARED_SECONDS,
    ),
    countMeasure(leftReps.length, rightReps.length),
  ].filter((measure) => measure !== null);
  const firstLeft = Math.min(...left.map((bout) => bout.startSeconds));
  const firstRight = Math.min(...right.map((bout) => bout.startSeconds));
  return { firstSide: firstLeft <= firstRight ? 'left' : 'right', measures, sentence: sentenceOf(measures) };
}

function rangesOf(reps: readonly RepReport[]): SideValues {
  const ranges = reps.map((rep) => rep.range).filter((range) => range !== null);
  return {
    values: ranges.map((range) => range.degrees),
    uncertainties: ranges.map((range) => range.uncertaintyDegrees),
  };
}

function timesOf(reps: readonly RepReport[], phaseOf: typeof eccentricOf): SideValues {
  const phases = reps.map(phaseOf).filter((phase) => phase !== undefined);
  return {
    values: phases.map((phase) => phase.seconds),
    uncertainties: phases.map((phase) => phase.uncertaintySeconds),
  };
}

function compare(
  measure: Measure['measure'],
  unit: Measure['unit'],
  left: SideValues,
  right: SideValues,
  sharedHalfWidth: number,
): Measure | null {
  if (left.values.length === 0 || right.values.length === 0) return null;
  const [leftMean, rightMean] = [mean([...left.values]), mean([...right.values])];
  const [a, b] = [meanVariance(left), meanVariance(right)];
  const shared = 2 * standardErrorOf(sharedHalfWidth) ** 2;
  const freedom =
    (a.variance + b.variance) ** 2 / (a.variance ** 2 / a.freedom + b.variance ** 2 / b.freedom);
  const half = Math.hypot(
    studentReach(Math.max(1, freedom)) * Math.sqrt(a.variance + b.variance),
    studentReach(Number.POSITIVE_INFINITY) * Math.sqrt(shared),
  );
  const difference = leftMean - rightMean;
  return {
    measure,
    unit,
    left: leftMean,
    right: rightMean,
    difference,
    interval: [difference - half, difference + half],
    ratio: rightMean === 0 ? null : leftMean / rightMean,
    different: Math.abs(difference) > half,
  };
}

/** Variance of the mean of a side: from the spread between its reps, at least what the measurement alone leaves. */
function meanVariance({ values, uncertainties }: SideValues): {
  readonly variance: number;
  readonly freedom: number;
} {
  const measured = mean(uncertainties.map((half) => standardErrorOf(half) ** 2));
  const spread = values.length > 1 ? sampleVariance([...values]) : 0;
  return {
    variance: Math.max(1e-9, Math.max(spread, measured) / values.length),
    freedom: values.length > 1 ? values.length - 1 : 30,
  };
}

/** Counts carry no error of their own here: a rep more is a rep more. */
function countMeasure(left: number, right: number): Measure {
  return {
    measure: 'reps',
    unit: 'reps',
    left,
    right,
    difference: left - right,
    interval: [left - right, left - right],
    ratio: left / right,
    different: left !== right,
  };
}

function sentenceOf(measures: readonly Measure[]): string {
  const told = measures.filter((measure) => measure.different).map(differenceInWords);
  if (told.length === 0) return 'No difference between left and right that this camera could see.';
  return `Left against right: ${told.join('; ')}.`;
}

function differenceInWords(measure: Measure): string {
  const size = Math.abs(measure.difference);
  const left = measure.difference > 0;
  switch (measure.measure) {
    case 'range':
      return `the ${left ? 'right' : 'left'} side moved through ${size.toFixed(0)}° less`;
    case 'eccentric-seconds':
      return `the ${left ? 'right' : 'left'} side lowered ${size.toFixed(1)} s quicker`;
    case 'concentric-seconds':
      return `the ${left ? 'right' : 'left'} side lifted ${size.toFixed(1)} s quicker`;
    case 'reps':
      return `the ${left ? 'right' : 'left'} side did ${size} ${size === 1 ? 'rep' : 'reps'} fewer`;
  }
}
