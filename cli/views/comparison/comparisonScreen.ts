import { NO_GOAL } from '../../../analysis/report/cautions.js';
import type { PairedValue, WholeDifference } from '../../../analysis/trends/compareBouts.js';
import { filledColumns, plainTable } from '../terminal/plainTable.js';
import type { Style } from '../terminal/style.js';
import { wrapped } from '../terminal/wrapped.js';
import { capitalized } from '../words/grammar.js';
import { MEASURE_NAMES, UNITS } from '../words/measureWords.js';
import { plusMinus, signedText } from '../words/numbers.js';
import {
  agreementSentences,
  type ComparedPair,
  type ComparedSets,
  comparedSetName,
  comparisonSentence,
  pairName,
  unlikeViewsSentence,
} from './comparisonWords.js';

/** Two sets side by side: what really differs first, then the figures, then rep by rep. */
export function comparisonScreen(compared: ComparedSets, style: Style): string {
  const { colors, width } = style;
  const { first, second, pairs } = compared;
  const names =
    first.id !== null && first.id === second.id
      ? [`Both from ${comparedSetName(first)}`]
      : [`First: ${comparedSetName(first)}`, `Second: ${comparedSetName(second)}`];
  const blocks = [
    pairs.map((pair) => colors.bold(wrapped(comparisonSentence(pair), width))).join('\n'),
    names.map((line) => wrapped(line, width)).join('\n'),
    ...pairs.map((pair) => pairBlock(pair, style)),
    colors.dim(
      wrapped(
        '≠ the camera can really tell: the 95 % interval of the difference leaves out zero. Everything else may be chance or measurement. ' +
          `${NO_GOAL} Not medical or coaching advice.`,
        width,
      ),
    ),
  ];
  return `${blocks.join('\n\n')}\n`;
}

function pairBlock(pair: ComparedPair, style: Style): string {
  const { colors, width } = style;
  const { comparison } = pair;
  const lines = [colors.bold(pairName(pair)), wholeTable(pair, style)];
  if (!comparison.degreesCompared) lines.push(wrapped(unlikeViewsSentence(pair), width));
  const agreement = agreementSentences(comparison).map((sentence) => wrapped(sentence, width));
  lines.push('', repTable(pair, style), ...(agreement.length === 0 ? [] : ['', ...agreement]));
  return lines.join('\n');
}

function wholeTable({ first, second, comparison }: ComparedPair, style: Style): string {
  const rows = comparison.whole.map((one) => {
    const { text, decimals } = UNITS[one.unit];
    return [
      MEASURE_NAMES[one.measure],
      `${one.first.toFixed(decimals)}${text}`,
      `${one.second.toFixed(decimals)}${text}`,
      `${signedText(one.difference, decimals)}${text}`,
      one.measure === 'reps'
        ? ''
        : `${signedText(one.interval[0], decimals)} to ${signedText(one.interval[1], decimals)}`,
      one.told ? style.colors.yellow('≠ different') : isSameCount(one) ? 'the same' : 'cannot tell apart',
    ];
  });
  return plainTable(['Mean', ...titlesOf({ first, second }), 'Change', '95 % interval', ''], rows, style);
}

/** Reps are counted, not measured. */
function isSameCount({ measure, difference }: WholeDifference): boolean {
  return measure === 'reps' && difference === 0;
}

/** Two sets of one side are the first and the second; two sides name themselves. */
function titlesOf({ first, second }: Pick<ComparedPair, 'first' | 'second'>): readonly string[] {
  return first.side === second.side ? ['First', 'Second'] : [first.side, second.side].map(capitalized);
}

function repTable(pair: ComparedPair, style: Style): string {
  const [one, other] = titlesOf(pair).map((title) => title.toLowerCase());
  const columns = (measure: string) => [`${measure} ${one}`, other!, 'change'];
  const shown = filledColumns(
    ['Rep', ...columns('Lowering'), ...columns('Range')],
    pair.comparison.reps.map((rep) => [
      String(rep.number),
      ...pairedCells(rep.eccentric, 1, '', style),
      ...pairedCells(rep.range, 0, '°', style),
    ]),
  );
  return plainTable(shown.titles, shown.rows, style);
}

function pairedCells(
  value: PairedValue,
  decimals: number,
  unit: string,
  { colors }: Style,
): readonly string[] {
  const text = (one: PairedValue['first']) => (one === null ? '·' : `${one.value.toFixed(decimals)}${unit}`);
  const { difference } = value;
  if (difference === null) return [text(value.first), text(value.second), '·'];
  const change = `${signedText(difference.value, decimals)} ${colors.dim(plusMinus(difference.uncertainty, decimals))}${value.told ? colors.yellow(' ≠') : ''}`;
  return [text(value.first), text(value.second), change];
}
