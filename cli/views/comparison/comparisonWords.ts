import type { BoutReport, SetReport } from '../../../analysis/report/setReport.js';
import type { BoutComparison, WholeDifference } from '../../../analysis/trends/compareBouts.js';
import type { HistoryEntry } from '../../history/sets/readEntries.js';
import { dayText } from '../words/days.js';
import { UNITS } from '../words/measureWords.js';
import { signedText } from '../words/numbers.js';
import { loadWords, marks } from '../words/setWords.js';

/** A set that is compared: a saved one, or a film measured for this alone (then `id` and `uid` are null). */
export interface ComparedSet
  extends Pick<
    HistoryEntry,
    'exercise' | 'filmFile' | 'recordedAt' | 'details' | 'amendments' | 'invented' | 'headline'
  > {
  readonly id: number | null;
  readonly uid: string | null;
}

export interface ComparedPair {
  readonly first: BoutReport;
  readonly second: BoutReport;
  readonly comparison: BoutComparison;
}

export interface ComparedSets {
  readonly first: ComparedSet;
  readonly second: ComparedSet;
  readonly pairs: readonly ComparedPair[];
}

const CHANGES: Record<WholeDifference['measure'], { readonly more: string; readonly less: string }> = {
  range: { more: 'more range', less: 'less range' },
  'eccentric-seconds': { more: 'longer lowerings', less: 'quicker lowerings' },
  'concentric-seconds': { more: 'slower lifts', less: 'quicker lifts' },
  reps: { more: 'more reps', less: 'fewer reps' },
};

/** What really differs between two bouts, in one sentence. */
export function comparisonSentence(pair: ComparedPair): string {
  const told = pair.comparison.whole.filter((one) => one.told).map(differenceInWords);
  const start = `${pairName(pair)}: `;
  if (told.length === 0) return `${start}no difference that this camera could tell.`;
  return `${start}${secondInWords(pair)} has ${told.join(', ')}.`;
}

/** Left and right name themselves; two sets of one side are the first and the second. */
function secondInWords({ first, second }: ComparedPair): string {
  return first.side === second.side ? 'the second' : `the ${second.side}`;
}

function differenceInWords({ measure, unit, difference }: WholeDifference): string {
  const { text, decimals } = UNITS[unit];
  const words = difference > 0 ? CHANGES[measure].more : CHANGES[measure].less;
  const size = Math.abs(difference).toFixed(unit === 'seconds' ? 1 : decimals);
  return measure === 'reps'
    ? `${size} ${Number(size) === 1 ? words.replace(/s$/, '') : words}`
    : `${words} (${size}${text})`;
}

export function pairName({ first, second }: Pick<ComparedPair, 'first' | 'second'>): string {
  if (first.side === second.side) return { left: 'Left', right: 'Right', both: 'Both sides' }[first.side];
  return `${first.side === 'both' ? 'Both' : first.side === 'left' ? 'Left' : 'Right'} against ${second.side}`;
}

/** Which set that is: its number or film, exercise, day, load. */
export function comparedSetName(set: ComparedSet): string {
  const parts = [
    set.id === null ? set.filmFile : `set ${set.id}`,
    set.exercise.name,
    `${dayText(set.recordedAt.instant)}${set.recordedAt.source === 'film' ? '' : ' (date of the file)'}`,
    loadWords(set.details),
    marks(set),
  ];
  return parts.filter((part) => part !== '').join(', ');
}

export function unlikeViewsSentence({ first, second }: Pick<ComparedPair, 'first' | 'second'>): string {
  return `Range is not compared: the first was filmed from the ${viewText(first)}, the second from the ${viewText(second)}, and degrees from different views bend differently.`;
}

function viewText({ view }: BoutReport): string {
  return `${view.facing} (${Math.round(view.degreesOffSide)}° off side)`;
}

/** Agreement by Bland and Altman, in words. */
export function agreementSentences({ agreement }: BoutComparison): readonly string[] {
  const say = (what: string, unit: string, decimals: number, found: typeof agreement.eccentricSeconds) => {
    if (found === null) return [];
    const text = (value: number) => `${signedText(value, decimals)}${unit}`;
    return [
      `${what} rep by rep: ${text(found.bias)} on average over ${found.pairs} pairs; 95 % of the differences lie between ${text(found.limits[0])} and ${text(found.limits[1])} (limits of agreement).`,
    ];
  };
  return [
    ...say('Lowering', ' s', 2, agreement.eccentricSeconds),
    ...say('Range', '°', 1, agreement.rangeDegrees),
  ];
}

/** A film measured for the comparison alone. */
export function comparedFilm(
  report: SetReport,
  about: Pick<ComparedSet, 'recordedAt' | 'details'>,
): ComparedSet {
  return {
    id: null,
    uid: null,
    exercise: { id: report.exercise.id, name: report.exercise.name },
    filmFile: report.film.file,
    headline: report.headline,
    amendments: 0,
    invented: false,
    ...about,
  };
}
