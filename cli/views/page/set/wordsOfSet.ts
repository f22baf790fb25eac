import { basename } from 'node:path';
import type { Exercise } from '../../../../analysis/exercises/exercise.js';
import type { PhaseReport, RepReport, SetReport } from '../../../../analysis/report/setReport.js';
import {
  PHASES_IN_PLAN_ORDER,
  type PhaseKind,
  PLAIN_PHASE_WORDS,
  phaseWord,
} from '../../words/phaseWords.js';

/** The film's name without its folders, which say more about a machine than about a set. */
export function filmName(report: SetReport): string {
  return basename(report.film.file);
}

/** The word on screen for each kind of phase. */
export type PhaseNames = Readonly<Record<PhaseKind, string>>;

/** The words of the exercise for its phases; plain ones where the exercise is not known here. */
export function wordsOfPhases(words: Exercise['words'] | null): PhaseNames {
  return Object.fromEntries(
    PHASES_IN_PLAN_ORDER.map((kind) => [kind, phaseWord(kind, words ?? PLAIN_PHASE_WORDS)]),
  ) as PhaseNames;
}

/** "elbow flexion" from "elbow-flexion" */
export function angleName(report: SetReport): string {
  return report.exercise.drivingAngle.replaceAll('-', ' ');
}

/** What is unusual about a rep, in words; empty where nothing is. */
export function repRemarks(rep: RepReport): readonly string[] {
  const remarks: string[] = [];
  if (!rep.complete) remarks.push('cut by the film');
  if (rep.failed) remarks.push('lift not made');
  if (rep.partial) remarks.push('partial');
  if (rep.range?.shortened) {
    const end = rep.range.shortenedAt;
    remarks.push(
      end === null
        ? 'range shortened'
        : end === 'both'
          ? 'range shortened at both ends'
          : `range shortened at the ${end} end`,
    );
  }
  const stalls = rep.phases.reduce((count, phase) => count + (phase.stalls?.length ?? 0), 0);
  if (stalls > 0) remarks.push(stalls === 1 ? '1 stall' : `${stalls} stalls`);
  return remarks;
}

/** The phase of a kind in a rep; null where the film shows none. */
export function phaseOfRep(rep: RepReport, kind: PhaseKind): PhaseReport | null {
  return rep.phases.find((phase) => phase.kind === kind) ?? null;
}
