import { formatLoad, loadInKilograms } from '../../../analysis/plan/load.js';
import type { TrackedBout } from '../../history/weeks/likeSets.js';
import { type FollowedSide, MEASURES, type Trend } from '../../history/weeks/trends.js';
import { controlOf } from '../words/setWords.js';
import { sparkline } from './sparkline.js';
import { MEASURE_WORDS, measureText, trendText } from './trendWords.js';

/** One column of the history over time: a small picture, its two ends in words, and what can be said of it. */
export interface ColumnLine {
  readonly name: string;
  readonly picture: string;
  readonly words: string;
}

const LINE_WIDTH = 24;

/** A line a measure that trends are drawn from, over the sets that may be compared. */
export function trendLines({ like, trends }: FollowedSide): readonly ColumnLine[] {
  const told = Object.values(trends).some((trend) => trend.kind === 'measured');
  return MEASURES.flatMap((measure) => {
    const values = like.flatMap(({ bout }) => (bout[measure] === null ? [] : [bout[measure]]));
    const line = columnLine(MEASURE_WORDS[measure].name, values, (value) => measureText(measure, value));
    if (line === null) return [];
    const trend: Trend = trends[measure];
    return [told ? { ...line, words: `${line.words}  ${trendText(measure, trend)}` } : line];
  });
}

/** A line for each of the other columns; no trend is drawn from them. */
export function otherLines({ like, bouts }: FollowedSide): readonly ColumnLine[] {
  const judged = like.filter(({ bout }) => bout.deliveredLoweringShare !== null);
  const ranged = like.filter(({ bout }) => bout.medianRangeDegrees !== null);
  const loaded = bouts.filter(({ set }) => !set.details.warmUp && massOf(set) !== null);
  const lines = [
    lineOf(
      'Control',
      judged,
      ({ bout }) => bout.lastControlledRep ?? 0,
      ({ bout }) => controlOf(bout),
    ),
    lineOf(
      'Shorter',
      ranged,
      ({ bout }) => bout.firstShortenedRep ?? bout.completeReps + 1,
      ({ bout }) => (bout.firstShortenedRep === null ? 'held' : `from ${bout.firstShortenedRep}`),
    ),
    lineOf(
      'Tension',
      like,
      ({ bout }) => bout.timeUnderTensionSeconds,
      ({ bout }) => `${Math.round(bout.timeUnderTensionSeconds)} s`,
    ),
    lineOf(
      'Load',
      loaded,
      ({ set }) => massOf(set)!,
      ({ set }) => formatLoad(set.details.load!),
    ),
  ];
  return lines.filter((line) => line !== null);
}

function lineOf(
  name: string,
  bouts: readonly TrackedBout[],
  value: (bout: TrackedBout) => number,
  words: (bout: TrackedBout) => string,
): ColumnLine | null {
  if (bouts.length === 0) return null;
  return {
    name,
    picture: sparkline(bouts.map(value), LINE_WIDTH),
    words: fromTo(bouts.map(words)),
  };
}

function columnLine(
  name: string,
  values: readonly number[],
  text: (value: number) => string,
): ColumnLine | null {
  if (values.length === 0) return null;
  return { name, picture: sparkline(values, LINE_WIDTH), words: fromTo(values.map(text)) };
}

function fromTo(texts: readonly string[]): string {
  return texts.length === 1 ? texts[0]! : `${texts[0]} → ${texts.at(-1)}`;
}

function massOf({ details }: TrackedBout['set']): number | null {
  return details.load === null ? null : loadInKilograms(details.load);
}
