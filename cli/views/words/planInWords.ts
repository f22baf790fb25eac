import type { PlannedSeconds, RepRange, Stage, Tempo } from '../../../analysis/plan/plan.js';
import { PHASES_IN_PLAN_ORDER, type PhaseKind, type PhaseWords, phaseWord } from './phaseWords.js';

/** One stage of a plan as a sentence part, in the words of its exercise: "4 s lowering, no stretched hold, …". */
export function stageInWords(stage: Stage, words: PhaseWords): string {
  const parts = stage.tempo === null ? [] : tempoInWords(stage.tempo, words);
  if (stage.reps !== null)
    parts.push(`${repRangeInWords(stage.reps)}${stage.partials ? ' of part of the range' : ''}`);
  return parts.length === 0 ? 'no tempo and no reps prescribed' : parts.join(', ');
}

export function repRangeInWords(reps: RepRange): string {
  if (reps.min !== reps.max) return `${reps.min} to ${reps.max} reps`;
  return reps.min === 1 ? '1 rep' : `${reps.min} reps`;
}

function tempoInWords(tempo: Tempo, words: PhaseWords): string[] {
  return PHASES_IN_PLAN_ORDER.flatMap((kind) => {
    const text = phaseInWords(kind, plannedSecondsOf(tempo, kind), words);
    return text === null ? [] : [text];
  });
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

function phaseInWords(kind: PhaseKind, planned: PlannedSeconds, words: PhaseWords): string | null {
  if (planned === null) return null;
  const word = phaseWord(kind, words);
  if (planned === 'X') return `${word} ${kind === 'eccentric' ? 'quick' : 'as fast as the load allows'}`;
  if (planned === 0) return `no ${word}`;
  return `${planned} s ${word}`;
}
