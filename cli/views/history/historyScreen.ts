import { NO_GOAL } from '../../../analysis/report/cautions.js';
import type { TrackedBout } from '../../history/weeks/likeSets.js';
import { likeView } from '../../history/weeks/likeSets.js';
import type { SideGap } from '../../history/weeks/sideGap.js';
import type { FollowedSide } from '../../history/weeks/trends.js';
import { filledColumns, fittingTable } from '../terminal/plainTable.js';
import type { Style } from '../terminal/style.js';
import { wrapped } from '../terminal/wrapped.js';
import { dayText } from '../words/days.js';
import { decimal, degreesText, percentText, plusMinus } from '../words/numbers.js';
import { controlOf, loadWords, marks } from '../words/setWords.js';
import { otherLines, trendLines } from './columnLines.js';
import { gapSentence, leftOutSentences, sideName, sideSentence, tooFewSentence } from './trendWords.js';

const MOST_ROWS = 15;

/** What changed over the weeks: the sentences first, then a small line a measure, then the sets. */
export function historyScreen(
  sides: readonly FollowedSide[],
  gaps: readonly SideGap[],
  withSets: boolean,
  style: Style,
): string {
  const { colors, width } = style;
  if (sides.length === 0) return `${colors.bold('No such sets are saved yet.')}\n`;
  const sentences = [...sides.map(sideSentence), ...gaps.map(gapSentence).filter((text) => text !== null)];
  const blocks = [
    sentences.map((sentence) => colors.bold(wrapped(sentence, width))).join('\n'),
    inventedNotice(sides, style),
    ...sides.map((side) => sideBlock(side, withSets, style)),
    footnotes(sides, withSets, style),
  ];
  return `${blocks.filter((block) => block !== '').join('\n\n')}\n`;
}

function inventedNotice(sides: readonly FollowedSide[], { colors, width }: Style): string {
  const sets = sides.flatMap(({ bouts }) => bouts.map(({ set }) => set));
  if (!sets.some((set) => set.invented)) return '';
  const which = sets.every((set) => set.invented) ? 'These sets' : 'Sets marked "invented"';
  return colors.yellow(wrapped(`${which} are made up for demonstration; nobody lifted them.`, width));
}

function sideBlock(side: FollowedSide, withSets: boolean, style: Style): string {
  const { colors, width } = style;
  const lines = [colors.bold(sideName(side)), ...columnLines(side, withSets, style)];
  const missing = tooFewSentence(side);
  if (missing !== null) lines.push(colors.dim(wrapped(missing, width)));
  for (const sentence of leftOutSentences(side.leftOut)) lines.push(colors.dim(wrapped(sentence, width)));
  if (withSets) lines.push('', setTable(side, style));
  return lines.join('\n');
}

/** One small line a column, the pictures under one another. */
function columnLines(side: FollowedSide, withSets: boolean, { width }: Style): readonly string[] {
  const lines = [...trendLines(side), ...(withSets ? otherLines(side) : [])];
  const widest = Math.max(...lines.map((line) => line.picture.length));
  return lines.map(({ name, picture, words }) =>
    wrapped(words, width, `${name.padEnd(10)} ${picture.padEnd(widest)}  `),
  );
}

function setTable({ bouts }: FollowedSide, style: Style): string {
  const { colors } = style;
  const latest = bouts.at(-1)!;
  const allInvented = bouts.every(({ set }) => set.invented);
  const rows = bouts.slice(-MOST_ROWS).map((bout) => setRow(bout, latest, allInvented, style));
  const shown = filledColumns(
    ['Set', 'Filmed', 'Load', 'Reps', 'Delivered', 'Lowering', 'Range', 'Control', 'Shorter', 'Tension', ''],
    rows,
  );
  const table = fittingTable(shown.titles, shown.rows, ['Tension', 'Load', 'Shorter', 'Control'], style);
  if (bouts.length <= MOST_ROWS) return table;
  return `${table}\n${colors.dim(`The latest ${MOST_ROWS} of ${bouts.length}; --format csv has them all.`)}`;
}

function setRow(
  { set, bout }: TrackedBout,
  latest: TrackedBout,
  allInvented: boolean,
  { colors }: Style,
): readonly string[] {
  return [
    String(set.id),
    `${dayText(set.recordedAt.instant)}${set.recordedAt.source === 'film' ? '' : ' ~'}`,
    loadWords(set.details),
    repText(bout),
    bout.deliveredLoweringShare === null ? '·' : percentText(bout.deliveredLoweringShare),
    bout.medianEccentricSeconds === null
      ? '·'
      : `${decimal(bout.medianEccentricSeconds, 1)} ${colors.dim(plusMinus(bout.medianEccentricUncertaintySeconds ?? 0, 1))}`,
    rangeText(bout, likeView(bout, latest.bout), colors.dim),
    controlOf(bout),
    bout.firstShortenedRep === null ? '·' : `from ${bout.firstShortenedRep}`,
    `${Math.round(bout.timeUnderTensionSeconds)} s`,
    allInvented ? marks({ ...set, invented: false }) : marks(set),
  ];
}

function repText({ completeReps, partialReps, failedReps }: TrackedBout['bout']): string {
  const extra = partialReps + failedReps;
  return extra === 0 ? String(completeReps) : `${completeReps} + ${extra}`;
}

function rangeText(bout: TrackedBout['bout'], like: boolean, dim: (text: string) => string): string {
  if (bout.medianRangeDegrees === null) return '·';
  const text = `${degreesText(bout.medianRangeDegrees)} ${dim(plusMinus(bout.medianRangeUncertaintyDegrees ?? 0, 0))}`;
  return like ? text : `${text} ≁`;
}

function footnotes(sides: readonly FollowedSide[], withSets: boolean, { colors, width }: Style): string {
  const lines = [
    'Lines and trends are over sets like the latest: about the same view and load, the same planned tempo. In brackets: 95 % interval of the trend.',
  ];
  if (withSets) {
    lines.push(
      'Lowering and range are medians of the complete reps, ± half the 95 % interval; Control: last controlled rep; Shorter: range shortened from this rep.',
    );
    const bouts = sides.flatMap((side) =>
      side.bouts.slice(-MOST_ROWS).map((one) => ({ one, latest: side.bouts.at(-1)! })),
    );
    if (
      bouts.some(
        ({ one, latest }) => one.bout.medianRangeDegrees !== null && !likeView(one.bout, latest.bout),
      )
    ) {
      lines.push('≁ filmed from another view than the latest: not comparable in degrees.');
    }
    if (bouts.some(({ one }) => one.bout.partialReps + one.bout.failedReps > 0)) {
      lines.push('Reps after + were partial or failed.');
    }
    if (bouts.some(({ one }) => one.set.recordedAt.source !== 'film')) {
      lines.push('~ the film does not say when it was recorded; this is the date of its file.');
    }
  }
  lines.push(`${NO_GOAL} Not medical or coaching advice.`);
  return lines.map((line) => colors.dim(wrapped(line, width))).join('\n');
}
