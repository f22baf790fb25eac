import type { Side } from '../../core/pose/keypoints.js';
import type { Exercise } from '../exercises/exercise.js';
import type { BoutReport, RepReport, SymmetryReport } from '../report/setReport.js';
import { concentricOf, countsAsComplete, eccentricOf } from './fatigue.js';
import { meanDifference, type SideValues } from './meanDifference.js';
import { symmetrySentence } from './symmetrySentence.js';

export type SideComparison = SymmetryReport['measures'][number];

/**
 * Errors that all reps of one side share and the other side's do not, since the lifter turned round between them:
 * half widths of 95 % intervals. Ranges of identical sides (simulated rows, curls and split squats, cameras within 12°
 * of the side) came out 7.9° apart (root mean square), so 5.6° a side. The stated uncertainty counts where it is larger.
 */
export const LEAST_SHARED_DEGREES = 11;
export const SHARED_SECONDS = 0.06;

/** Words for the sentence where the exercise is not known. */
const PLAIN_WORDS = { eccentric: 'lowering', concentric: 'lift' } as const;

/**
 * Left against right, measure by measure, over the counted reps of the plan's first stage (range, eccentric and
 * concentric seconds) and in the number of reps of all stages. A side is called different only when the 95 %
 * interval of the difference, which holds both the spread from rep to rep and what the camera cannot tell, leaves
 * out zero, and the difference exceeds the measurement's own error. No pass mark: there is none for one camera.
 *
 * @returns null unless both sides have counted reps.
 */
export function compareSides(
  bouts: readonly BoutReport[],
  words: Pick<Exercise['words'], 'eccentric' | 'concentric'> = PLAIN_WORDS,
): SymmetryReport | null {
  const left = bouts.filter((bout) => bout.side === 'left');
  const right = bouts.filter((bout) => bout.side === 'right');
  const [leftReps, rightReps] = [comparableReps(left), comparableReps(right)];
  if (leftReps.length === 0 || rightReps.length === 0) return null;
  const moves = (kind: 'eccentric' | 'concentric') =>
    compare(`${kind}-seconds`, moveValues(leftReps, kind), moveValues(rightReps, kind));
  const measures = [
    compare('range', rangeValues(leftReps), rangeValues(rightReps)),
    moves('eccentric'),
    moves('concentric'),
    compareReps(left, right),
  ].filter((measure) => measure !== null);
  const firstSide: Side = earliestStart(left) <= earliestStart(right) ? 'left' : 'right';
  return { firstSide, measures, sentence: symmetrySentence(measures, words) };
}

function compare(
  measure: 'range' | 'eccentric-seconds' | 'concentric-seconds',
  left: SideValues,
  right: SideValues,
): SideComparison | null {
  const means = meanDifference(
    left,
    right,
    measure === 'range' ? [sharedDegrees(left), sharedDegrees(right)] : [SHARED_SECONDS, SHARED_SECONDS],
  );
  if (means === null) return null;
  const excludesZero = means.interval[0] > 0 || means.interval[1] < 0;
  return {
    measure,
    unit: measure === 'range' ? 'degrees' : 'seconds',
    left: means.first,
    right: means.second,
    difference: means.difference,
    interval: [means.interval[0], means.interval[1]],
    ratio: ratio(means.first, means.second),
    different: excludesZero && Math.abs(means.difference) > means.visible,
  };
}

function sharedDegrees({ uncertainties }: SideValues): number {
  return Math.max(LEAST_SHARED_DEGREES, ...uncertainties);
}

/** Counting has no noise, but reps cut by the film may or may not have been whole. */
function compareReps(left: readonly BoutReport[], right: readonly BoutReport[]): SideComparison {
  const count = (bouts: readonly BoutReport[]) => sum(bouts.map((bout) => bout.summary.completeReps));
  const cut = (bouts: readonly BoutReport[]) =>
    sum(bouts.map((bout) => bout.reps.filter((rep) => !rep.complete).length));
  const difference = count(left) - count(right);
  const interval: [number, number] = [difference - cut(right), difference + cut(left)];
  return {
    measure: 'reps',
    unit: 'reps',
    left: count(left),
    right: count(right),
    difference,
    interval,
    ratio: ratio(count(left), count(right)),
    different: interval[0] > 0 || interval[1] < 0,
  };
}

function comparableReps(bouts: readonly BoutReport[]): readonly RepReport[] {
  return bouts.flatMap((bout) => bout.reps).filter((rep) => countsAsComplete(rep) && (rep.stage ?? 1) === 1);
}

function rangeValues(reps: readonly RepReport[]): SideValues {
  const ranges = reps.flatMap((rep) => (rep.range === null ? [] : [rep.range]));
  return {
    values: ranges.map((range) => range.degrees),
    uncertainties: ranges.map((range) => range.uncertaintyDegrees),
  };
}

function moveValues(reps: readonly RepReport[], kind: 'eccentric' | 'concentric'): SideValues {
  const pick = kind === 'eccentric' ? eccentricOf : concentricOf;
  const moves = reps.map(pick).filter((phase) => phase !== undefined);
  return {
    values: moves.map((phase) => phase.seconds),
    uncertainties: moves.map((phase) => phase.uncertaintySeconds),
  };
}

function earliestStart(bouts: readonly BoutReport[]): number {
  return Math.min(...bouts.map((bout) => bout.startSeconds));
}

function ratio(left: number, right: number): number | null {
  return right === 0 ? null : left / right;
}

function sum(values: readonly number[]): number {
  return values.reduce((total, value) => total + value, 0);
}
