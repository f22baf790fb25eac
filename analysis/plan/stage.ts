import { Failure } from '../../core/failure.js';
import type { RepRange, Stage } from './plan.js';
import { parseTempo } from './tempo.js';

const MOST_REPS = 500;

/**
 * Reads a rep count (`8`) or range (`8-10`).
 *
 * @throws Failure (usage) where it is neither, or the range runs backwards.
 */
export function parseReps(text: string): RepRange {
  const match = /^\s*(\d+)\s*(?:[-–]\s*(\d+))?\s*$/.exec(text);
  if (match === null) {
    throw new Failure('usage', `The reps "${text}" are neither a number nor a range.`, 'Write 8 or 8-10.');
  }
  const min = Number(match[1]);
  const max = Number(match[2] ?? match[1]);
  if (min > max) throw new Failure('usage', `The reps "${text}" run backwards.`, `Write ${max}-${min}.`);
  if (max < 1 || max > MOST_REPS) {
    throw new Failure('usage', `The reps "${text}" must lie between 1 and ${MOST_REPS}.`);
  }
  return { min, max };
}

/** Writes reps as they are read: `8` or `8-10`. */
export function formatReps(reps: RepRange): string {
  return reps.min === reps.max ? String(reps.min) : `${reps.min}-${reps.max}`;
}

/**
 * Reads one stage of a set: tempo, then reps, then the word `partials` where part of the range is
 * wanted, with colons between: `5-0-1-1:8-10`, `1-0-X-0`, `1-0-1-0:5:partials`.
 *
 * @throws Failure (usage) pointing at what cannot be read.
 */
export function parseStage(text: string): Stage {
  const [tempo = '', reps, extra, ...rest] = text.split(':').map((part) => part.trim());
  if (rest.length > 0 || (extra !== undefined && extra !== 'partials')) {
    throw new Failure(
      'usage',
      `The stage "${text}" cannot be read.`,
      'Write tempo:reps, for example 5-0-1-1:8-10, and :partials after it where part of the range is wanted.',
    );
  }
  return {
    tempo: parseTempo(tempo),
    reps: reps === undefined ? null : parseReps(reps),
    ...(extra === 'partials' ? { partials: true } : {}),
  };
}
