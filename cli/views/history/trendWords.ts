import { type LeftOut, MOST_COMPARED } from '../../history/weeks/likeSets.js';
import type { SideGap } from '../../history/weeks/sideGap.js';
import {
  FEWEST_DAYS,
  FEWEST_SETS,
  type FollowedSide,
  MEASURES,
  type Measure,
  type Trend,
} from '../../history/weeks/trends.js';
import { counted } from '../words/grammar.js';
import { plusMinus, signedText } from '../words/numbers.js';

interface MeasureWords {
  readonly name: string;
  readonly unit: string;
  readonly decimals: number;
  /** From the stored unit to the one shown. */
  readonly scale: number;
}

export const MEASURE_WORDS: Record<Measure, MeasureWords> = {
  deliveredLoweringShare: { name: 'Delivered', unit: ' %', decimals: 0, scale: 100 },
  medianEccentricSeconds: { name: 'Lowering', unit: ' s', decimals: 1, scale: 1 },
  medianRangeDegrees: { name: 'Range', unit: '°', decimals: 0, scale: 1 },
};

export function measureText(measure: Measure, value: number): string {
  const { unit, decimals, scale } = MEASURE_WORDS[measure];
  return `${(value * scale).toFixed(decimals)}${unit}`;
}

/** What a trend says, in a few words beside its line. */
export function trendText(measure: Measure, trend: Trend): string {
  if (trend.kind === 'too-few') {
    return trend.sets < FEWEST_SETS
      ? `${counted(trend.sets, 'like set')}: a trend needs ${FEWEST_SETS}`
      : `${counted(trend.days, 'day')}: a trend needs ${FEWEST_DAYS}`;
  }
  switch (trend.verdict) {
    case 'rising':
    case 'falling':
      return `${trend.verdict} ${perWeekText(measure, trend)}`;
    case 'within-measurement':
      return `steady within what the camera can tell (${changeText(measure, trend.measurementUncertainty)})`;
    case 'none':
      return 'no clear change';
  }
}

/** What is missing for a trend, where none of the measures has one; null where one has. */
export function tooFewSentence({ like, trends }: FollowedSide): string | null {
  if (Object.values(trends).some((trend) => trend.kind === 'measured')) return null;
  const days = new Set(like.map(({ set }) => set.recordedAt.instant.slice(0, 10))).size;
  return `A trend needs ${FEWEST_SETS} like sets on ${FEWEST_DAYS} days; so far ${counted(like.length, 'set')} on ${counted(days, 'day')}.`;
}

function perWeekText(measure: Measure, trend: Extract<Trend, { kind: 'measured' }>): string {
  const { decimals, scale } = MEASURE_WORDS[measure];
  const { unit } = MOVES[measure];
  const text = (value: number) => signedText(value * scale, decimals + 1);
  const [low, high] = trend.intervalPerWeek;
  return `${text(trend.perWeek)}${unit} a week (${text(low)} to ${text(high)})`;
}

function changeText(measure: Measure, value: number): string {
  const { unit, decimals, scale } = MEASURE_WORDS[measure];
  return `${plusMinus(value * scale, decimals)}${unit}`;
}

/** The answer in one sentence: what moved over the weeks on this side, if anything. */
export function sideSentence(followed: FollowedSide): string {
  const { trends, bouts } = followed;
  const name = sideName(followed);
  const moved = MEASURES.map((measure) => movedText(measure, trends[measure])).filter(
    (text) => text !== null,
  );
  if (moved.length > 0)
    return `${name}: ${moved.join(', ')} over ${counted(followed.like.length, 'like set')}.`;
  const measured = Object.values(trends).filter((trend) => trend.kind === 'measured');
  if (measured.length === 0)
    return `${name}: ${counted(bouts.length, 'set')}, too few alike to tell a trend yet.`;
  return `${name}: no change that this camera could tell over ${counted(followed.like.length, 'like set')}.`;
}

const MOVES: Record<Measure, { readonly rising: string; readonly falling: string; readonly unit: string }> = {
  deliveredLoweringShare: {
    rising: 'more of the planned lowering delivered',
    falling: 'less of the planned lowering delivered',
    unit: ' points',
  },
  medianEccentricSeconds: { rising: 'lowerings longer', falling: 'lowerings quicker', unit: ' s' },
  medianRangeDegrees: { rising: 'more range', falling: 'less range', unit: '°' },
};

function movedText(measure: Measure, trend: Trend): string | null {
  if (trend.kind !== 'measured' || (trend.verdict !== 'rising' && trend.verdict !== 'falling')) return null;
  const { decimals, scale } = MEASURE_WORDS[measure];
  const { unit } = MOVES[measure];
  return `${MOVES[measure][trend.verdict]} (${signedText(trend.change * scale, decimals)}${unit})`;
}

export function sideName({ exercise, side, lifter }: FollowedSide): string {
  const who = lifter === null ? '' : ` (${lifter})`;
  return side === 'both' ? `${exercise.name}${who}` : `${exercise.name}, ${side}${who}`;
}

/** Which sets the trends leave aside, and why; empty where none. */
export function leftOutSentences(leftOut: LeftOut): readonly string[] {
  const sentences: string[] = [];
  const say = (count: number, reason: string) => {
    if (count > 0) sentences.push(`${counted(count, 'set')} ${reason}`);
  };
  say(
    leftOut.view,
    'filmed from another view: degrees from different views bend differently, so they are not compared.',
  );
  say(leftOut.load, 'at another load than the latest: left out of the trends.');
  say(leftOut.plan, 'with another planned tempo than the latest: left out of the trends.');
  say(leftOut.warmUp, 'marked as warm-up: left out of the trends.');
  say(leftOut.earlier, `further back: trends are over the latest ${MOST_COMPARED} sets alike.`);
  say(leftOut.invented, 'of the other kind, invented or real: left out of the trends.');
  return sentences;
}

/** The sides of an exercise, where something can be said of how their difference moves. */
export function gapSentence({ exercise, measure, points, trend, verdict }: SideGap): string | null {
  if (trend.kind !== 'measured') return null;
  const what = measure === 'medianEccentricSeconds' ? 'lowering time' : 'range';
  if (verdict === 'none') {
    return `${exercise.name}: the difference in ${what} between left and right did not change as far as this camera could tell.`;
  }
  const latest = points.at(-1)!.value;
  const size =
    measure === 'medianEccentricSeconds'
      ? `${Math.abs(latest).toFixed(1)} s`
      : `${Math.abs(latest).toFixed(0)}°`;
  const now =
    Number.parseFloat(size) === 0
      ? 'none is left'
      : `it is ${size}, more on the ${latest > 0 ? 'left' : 'right'}`;
  return `${exercise.name}: the difference in ${what} between left and right is ${verdict}; in the latest sets ${now}.`;
}
