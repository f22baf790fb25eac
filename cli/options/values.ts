import { InvalidArgumentError } from '@commander-js/extra-typings';

/** Reads seconds of film time: plain seconds, or minutes:seconds as a player shows them. */
export function parseFilmTime(text: string): number {
  const match = /^(?:(\d+):(?=[0-5]?\d(?:\.\d+)?$))?(\d+(?:\.\d+)?)$/.exec(text.trim());
  if (match === null) throw new InvalidArgumentError('Give seconds (75.5) or minutes:seconds (1:15.5).');
  return Number(match[1] ?? 0) * 60 + Number(match[2]);
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

/** Each takes up to 200 MB of memory; no machine this is for has more cores. */
const MOST_WORKERS = 64;

/** Reads how many processor cores to use. */
export function parseWorkers(text: string): number {
  const value = readNumber(text);
  if (!Number.isInteger(value) || value < 1 || value > MOST_WORKERS)
    throw new InvalidArgumentError(`Give a whole number from 1 to ${MOST_WORKERS}.`);
  return value;
}

/** From a time lapse to the fastest cameras played slowly; beyond it every time would be nonsense. */
const SPEED_FACTORS = { least: 0.01, most: 1000 };

/** Reads how many times too slowly a film is stored. */
export function parseSpeedFactor(text: string): number {
  const value = readNumber(text);
  if (!(value >= SPEED_FACTORS.least && value <= SPEED_FACTORS.most))
    throw new InvalidArgumentError(`Give a number from ${SPEED_FACTORS.least} to ${SPEED_FACTORS.most}.`);
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
  /** As the user wrote it, to be repeated where it does not serve. */
  readonly asGiven: string;
}

/** Reads `x,y@seconds`. */
export function parsePointInFilm(text: string): PointInFilm {
  const match = /^\s*(\d+(?:\.\d+)?)\s*,\s*(\d+(?:\.\d+)?)\s*@\s*([\d:.]+)\s*$/.exec(text);
  if (match === null) {
    throw new InvalidArgumentError(
      'Give x,y@seconds: fractions of the upright picture (0.5,0.6@5) or its pixels (240,310@5).',
    );
  }
  return {
    x: Number(match[1]),
    y: Number(match[2]),
    seconds: parseFilmTime(match[3]!),
    asGiven: text.trim(),
  };
}

/** Gathers the values of an option that may be repeated, in order. */
export function gathered(text: string, before: readonly string[] = []): string[] {
  return [...before, text];
}

function readNumber(text: string): number {
  return /^\d+(\.\d+)?$/.test(text.trim()) ? Number(text) : Number.NaN;
}
