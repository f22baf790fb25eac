import type { Exercise } from '../exercises/exercise.js';
import type { PlannedSeconds, Tempo } from './plan.js';

/**
 * Says a tempo in the words of its exercise, in the order of the notation:
 * "lower for 4 s, no pause, lift in 1 s, squeeze for 1 s".
 * What is not prescribed is left out.
 */
export function describeTempo(tempo: Tempo, words: Exercise['words']): string {
  const parts = [
    describeEccentric(tempo.eccentric, words.eccentric),
    describeHold(tempo.stretchedHold, words.stretchedHold),
    describeConcentric(tempo.concentric, words.concentric),
    describeHold(tempo.contractedHold, words.contractedHold),
  ].filter((part) => part !== null);
  return parts.length === 0 ? 'no tempo prescribed' : parts.join(', ');
}

function describeEccentric(planned: PlannedSeconds, word: Exercise['words']['eccentric']): string | null {
  const verb = word === 'lowering' ? 'lower' : 'return';
  if (planned === null) return null;
  return planned === 'X' ? `${verb} quickly (not judged)` : `${verb} for ${planned} s`;
}

function describeConcentric(planned: PlannedSeconds, verb: Exercise['words']['concentric']): string | null {
  if (planned === null) return null;
  return planned === 'X' ? `${verb} as fast as the load allows` : `${verb} in ${planned} s`;
}

function describeHold(planned: PlannedSeconds, word: string): string | null {
  if (planned === null || planned === 'X') return null;
  return planned === 0 ? `no ${word}` : `${word} for ${planned} s`;
}
