import { InvalidArgumentError } from '@commander-js/extra-typings';

/** Reads seconds of film time: plain seconds, or minutes:seconds as a player shows them. */
export function parseFilmTime(text: string): number {
  const match = /^(?:(\d+):(?=[0-5]?\d(?:\.\d+)?$))?(\d+(?:\.\d+)?)$/.exec(text.trim());
  if (match === null) throw new InvalidArgumentError('Give seconds (75.5) or minutes:seconds (1:15.5).');
  return Number(match[1] ?? 0) * 60 + Number(match[2]);
}

/** Reads a number above zero. */
export function parsePositiveNumber(text: string): number {
  const value = readNumber(text);
  if (!(value > 0)) throw new InvalidArgumentError('Give a number above 0.');
  return value;
}

/** Reads a number of zero or more. */
export function parseNumberFromZero(text: string): number {
  const value = readNumber(text);
  if (!(value >= 0)) throw new InvalidArgumentError('Give a number, 0 or more.');
  return value;
}

/** Reads a count of one or more. */
export function parseCount(text: string): number {
  const value = readNumber(text);
  if (!Number.isInteger(value) || value < 1)
    throw new InvalidArgumentError('Give a whole number, 1 or more.');
  return value;
}

/**
 * Where the lifter is in the film: a point of the upright picture at one moment. Two numbers from 0 to 1 are
 * fractions of its width and height, others are pixels.
 */
export interface PointInFilm {
  /** From the left of the upright picture. */
  readonly x: number;
  /** From the top of the upright picture. */
  readonly y: number;
  /** Film time. */
  readonly seconds: number;
}

/** Reads `x,y@seconds`. */
export function parsePointInFilm(text: string): PointInFilm {
  const match = /^\s*(\d+(?:\.\d+)?)\s*,\s*(\d+(?:\.\d+)?)\s*@\s*([\d:.]+)\s*$/.exec(text);
  if (match === null) {
    throw new InvalidArgumentError(
      'Give x,y@seconds: fractions of the upright picture (0.5,0.6@5) or its pixels (240,310@5).',
    );
  }
  return { x: Number(match[1]), y: Number(match[2]), seconds: parseFilmTime(match[3]!) };
}

function readNumber(text: string): number {
  return /^\d+(\.\d+)?$/.test(text.trim()) ? Number(text) : Number.NaN;
}
