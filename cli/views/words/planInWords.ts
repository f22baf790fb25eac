import type { PlannedSeconds, RepRange, Stage, Tempo } from '../../../analysis/plan/plan.js';
import { describeTempo } from '../../../analysis/plan/tempoWords.js';
import type { PhaseKind, PhaseWords } from './phaseWords.js';

/** One stage of a plan in the words of its exercise: "lower for 4 s, no pause, …, 8 to 10 reps". */
export function stageInWords({ tempo, reps, partials }: Stage, words: PhaseWords): string {
  const parts = tempo === null ? [] : [describeTempo(tempo, words)];
  if (reps !== null)
    parts.push(`${repRangeInWords(reps)}${partials === true ? ' of part of the range' : ''}`);
  return parts.length === 0 ? 'no tempo and no reps prescribed' : parts.join(', ');
}

function repRangeInWords(reps: RepRange): string {
  if (reps.min !== reps.max) return `${reps.min} to ${reps.max} reps`;
  return reps.min === 1 ? '1 rep' : `${reps.min} reps`;
}

export function plannedSecondsOf(tempo: Tempo, kind: PhaseKind): PlannedSeconds {
  switch (kind) {
    case 'eccentric':
      return tempo.eccentric;
    case 'stretched-hold':
      return tempo.stretchedHold;
    case 'concentric':
      return tempo.concentric;
    case 'contracted-hold':
      return tempo.contractedHold;
  }
}
