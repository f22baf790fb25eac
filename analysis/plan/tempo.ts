import { Failure } from '../../core/failure.js';
import type { PlannedSeconds, Tempo } from './plan.js';

/** The four places of the notation, in order, with the words used when one is wrong. */
const PLACES = [
  { key: 'eccentric', name: 'eccentric (lowering or return)', move: true },
  { key: 'stretchedHold', name: 'hold at the stretched end', move: false },
  { key: 'concentric', name: 'concentric (lift, pull or press)', move: true },
  { key: 'contractedHold', name: 'hold at the contracted end', move: false },
] as const;

/** No tempo asks for longer phases; a larger number is a slip of the finger. */
const LONGEST_PHASE_SECONDS = 120;

const REMEDY =
  'Write eccentric, stretched hold, concentric, contracted hold: 4-0-1-1, 40X1 or 5-_-_-1 (X as fast as the load allows, _ not prescribed).';

interface Field {
  readonly text: string;
  /** Place of the first character in what the user wrote. */
  readonly column: number;
}

/**
 * Reads the trade's tempo notation.
 *
 * Four fields (eccentric, stretched hold, concentric, contracted hold) or three (the last hold not
 * prescribed). Fields are seconds, `X` (explosive: moves only) or `_` (not prescribed). Written without
 * separators every character is one field; seconds above 9 or with decimals need separators: `-`, `/`
 * or spaces.
 *
 * Source of the field order and of the forms: the training literature, for example 2/0/2/0 and 2/0/X/0 in
 * Wilk et al. 2018 and 2020.
 *
 * @throws Failure (usage) pointing at the character that cannot be read.
 */
export function parseTempo(text: string): Tempo {
  const fields = splitFields(text);
  if (fields.length < 3 || fields.length > 4) {
    throw unreadable(text, fieldCountColumn(fields, text), fieldCountMessage(fields.length));
  }
  const values = PLACES.map(
    (place, index): PlannedSeconds =>
      index < fields.length ? parseField(text, fields[index]!, place) : null,
  );
  return {
    eccentric: values[0]!,
    stretchedHold: values[1]!,
    concentric: values[2]!,
    contractedHold: values[3] ?? null,
  };
}

function splitFields(text: string): readonly Field[] {
  const separated = /[-–/\s]/.test(text.trim());
  const pattern = separated ? /[^-–/\s]+/g : /\S/g;
  const fields = [...text.matchAll(pattern)].map((match) => ({ text: match[0], column: match.index }));
  if (!separated && text.includes('.')) {
    throw unreadable(
      text,
      text.indexOf('.'),
      'a dot is a decimal point, so the fields need other separators',
      'Write 4-0-1-1 or 2.5-0-1-1.',
    );
  }
  return fields;
}

function parseField(text: string, field: Field, place: (typeof PLACES)[number]): PlannedSeconds {
  if (field.text === '_') return null;
  if (/^x$/i.test(field.text)) {
    if (place.move) return 'X';
    throw unreadable(
      text,
      field.column,
      `X means as fast as the load allows, which a ${place.name} cannot be`,
    );
  }
  if (!/^(\d+(\.\d+)?|\.\d+)$/.test(field.text)) {
    throw unreadable(text, field.column, `"${field.text}" is not a number of seconds, X or _`);
  }
  const seconds = Number(field.text);
  if (seconds > LONGEST_PHASE_SECONDS) {
    throw unreadable(text, field.column, `${field.text} s is too long for one phase`);
  }
  if (place.move && seconds === 0) {
    throw unreadable(
      text,
      field.column,
      `the ${place.name} cannot take 0 s; X is as fast as the load allows`,
    );
  }
  return seconds;
}

function fieldCountMessage(count: number): string {
  if (count === 0) return 'nothing is written';
  return count < 3
    ? `only ${count} of the four fields ${count === 1 ? 'is' : 'are'} there`
    : `there are ${count} fields, and a tempo has four`;
}

function fieldCountColumn(fields: readonly Field[], text: string): number {
  return fields.length > 4 ? fields[4]!.column : text.length;
}

function unreadable(text: string, column: number, reason: string, remedy: string = REMEDY): Failure {
  return new Failure(
    'usage',
    `The tempo "${onOneLine(text)}" cannot be read: ${reason}.\n  ${onOneLine(text)}\n  ${' '.repeat(column)}^`,
    remedy,
  );
}

/** A line break or tab inside the text would put the pointer under the wrong character. */
function onOneLine(text: string): string {
  return text.replaceAll(/\s/g, ' ');
}
