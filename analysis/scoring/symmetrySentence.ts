import type { Exercise } from '../exercises/exercise.js';
import type { SymmetryReport } from '../report/setReport.js';

type Words = Pick<Exercise['words'], 'eccentric' | 'concentric'>;
type Measure = SymmetryReport['measures'][number];

/** Left against right in one sentence, in the words of the exercise, without praise or blame. */
export function symmetrySentence(measures: readonly Measure[], words: Words): string {
  const moves = measures.filter((measure) => measure.measure !== 'reps');
  const reps = measures.find((measure) => measure.measure === 'reps');
  const counts = reps === undefined ? '' : `left did ${repCount(reps.left)}, right ${reps.right}`;
  const different = moves.filter((measure) => measure.different).map((measure) => describe(measure, words));
  const countsDiffer = reps?.different === true;
  if (different.length === 0) {
    return sentence(
      countsDiffer
        ? `${counts}; otherwise no difference this camera could see`
        : 'no difference this camera could see',
    );
  }
  return sentence([...different, ...(countsDiffer ? [counts] : [])].join('; '));
}

function describe(measure: Measure, words: Words): string {
  const larger = measure.difference > 0 ? 'left' : 'right';
  const [low, high] = measure.interval.map(Math.abs).sort((first, second) => first - second) as [
    number,
    number,
  ];
  const degrees = `${Math.abs(measure.difference).toFixed(0)}° further (${low.toFixed(0)} to ${high.toFixed(0)}°)`;
  const seconds = `${Math.abs(measure.difference).toFixed(1)} s longer (${low.toFixed(1)} to ${high.toFixed(1)} s)`;
  if (measure.measure === 'range') return `the ${larger} side moved ${degrees}`;
  const move = measure.measure === 'eccentric-seconds' ? words.eccentric : words.concentric;
  return `the ${larger} ${move} took ${seconds}`;
}

function repCount(count: number): string {
  return count === 1 ? '1 rep' : `${count} reps`;
}

function sentence(text: string): string {
  return `${text.charAt(0).toUpperCase()}${text.slice(1)}.`;
}
