import type { Exercise } from '../../../analysis/exercises/exercise.js';
import type { PhaseReport } from '../../../analysis/report/setReport.js';

export type PhaseKind = PhaseReport['kind'];
export type PhaseWords = Exercise['words'];

/** Words that fit any exercise, for a report whose exercise is not known here. */
export const PLAIN_PHASE_WORDS: PhaseWords = {
  eccentric: 'lowering',
  concentric: 'lift',
  stretchedHold: 'stretched hold',
  contractedHold: 'contracted hold',
};

/** The four phases in the order in which a tempo is written. */
export const PHASES_IN_PLAN_ORDER: readonly PhaseKind[] = [
  'eccentric',
  'stretched-hold',
  'concentric',
  'contracted-hold',
];

/** What the phase is called on screen for this exercise. */
export function phaseWord(kind: PhaseKind, words: PhaseWords): string {
  switch (kind) {
    case 'eccentric':
      return words.eccentric;
    case 'stretched-hold':
      return words.stretchedHold;
    case 'concentric':
      return words.concentric;
    case 'contracted-hold':
      return words.contractedHold;
  }
}
