import type { BoutReport } from '../../../analysis/report/setReport.js';
import type { BoutComparison, PairedValue, WholeDifference } from '../../../analysis/trends/compareBouts.js';
import type { HistoryEntry } from '../../history/readSets.js';
import { signedText } from '../terminal/figures.js';
import type { Style } from '../terminal/style.js';
import { wrapped } from '../terminal/wrapped.js';
import { dayText } from './days.js';
import { plainTable } from './plainTable.js';
import { loadWords, marks } from './setWords.js';

export interface ComparedSets {
  readonly first: HistoryEntry;
  readonly second: HistoryEntry;
  readonly pairs: readonly {
    readonly first: BoutReport;
    readonly second: BoutReport;
    readonly comparison: BoutComparison;
  }[];
}

const MEASURES: Record<
  WholeDifference['measure'],
  { readonly name: string; readonly more: string; readonly less: string }
> = {
  range: { name: 'Range', more: 'more range', less: 'less range' },
  'eccentric-seconds': { name: 'Lowering', more: 'longer lowerings', less: 'quicker lowerings' },
  'concentric-seconds': { name: 'Lift', more: 'slower lifts', less: 'quicker lifts' },
  reps: { name: 'Reps', more: 'more reps', less: 'fewer reps' },
};

const UNITS = {
  degrees: { text: '°', decimals: 0 },
  seconds: { text: ' s', decimals: 2 },
  reps: { text: '', decimals: 0 },
} as const;

/** Two sets side by side: what really differs first, then the figures, then rep by rep. */
export function comparisonScreen(compared: ComparedSets, style: Style): string {
  const { colors, width } = style;
  const blocks = [
    compared.pairs.map((pair) => colors.bold(wrapped(sentence(pair), width))).join('\n'),
    [setLine('First', compared.first), setLine('Second', compared.second)]
      .map((line) => wrapped(line, width))
      .join('\n'),
    ...compared.pairs.map((pair) => pairBlock(pair, style)),
    colors.dim(
      wrapped(
        '≠ the camera can really tell: the 95 % interval of the difference leaves out zero. Everything else may be chance or measurement.',
        width,
      ),
    ),
  ];
  return `${blocks.join('\n\n')}\n`;
}

type Pair = ComparedSets['pairs'][number];

function sentence({ first, second, comparison }: Pair): string {
  const told = comparison.whole.filter((one) => one.told).map(differenceInWords);
  const start = `${pairName(first, second)}: `;
  if (told.length === 0) return `${start}no difference that this camera could tell.`;
  return `${start}the second has ${told.join(', ')}.`;
}

function differenceInWords({ measure, unit, difference }: WholeDifference): string {
  const { text, decimals } = UNITS[unit];
  const words = difference > 0 ? MEASURES[measure].more : MEASURES[measure].less;
  const size = Math.abs(difference).toFixed(unit === 'seconds' ? 1 : decimals);
  return measure === 'reps'
    ? `${size} ${Number(size) === 1 ? words.replace(/s$/, '') : words}`
    : `${words} (${size}${text})`;
}

function pairName(first: BoutReport, second: BoutReport): string {
  if (first.side === second.side) return { left: 'Left', right: 'Right', both: 'Both sides' }[first.side];
  return `${first.side === 'both' ? 'Both' : first.side === 'left' ? 'Left' : 'Right'} against ${second.side}`;
}

function setLine(name: string, entry: HistoryEntry): string {
  const parts = [
    entry.exercise.name,
    dayText(entry.recordedAt.instant),
    loadWords(entry.details),
    marks(entry),
  ];
  return `${name}: set ${entry.id}, ${parts.filter((part) => part !== '').join(', ')}`;
}

function pairBlock({ first, second, comparison }: Pair, style: Style): string {
  const { colors, width } = style;
  const lines = [colors.bold(pairName(first, second)), wholeTable(comparison, style)];
  if (!comparison.degreesCompared) {
    lines.push(
      wrapped(
        `Range is not compared: the first was filmed from the ${viewText(first)}, the second from the ${viewText(second)}, and degrees from different views bend differently.`,
        width,
      ),
    );
  }
  lines.push('', repTable(comparison, style), ...agreementLines(comparison, width));
  return lines.join('\n');
}

function viewText({ view }: BoutReport): string {
  return `${view.facing} (${Math.round(view.degreesOffSide)}° off side)`;
}

function wholeTable({ whole }: BoutComparison, style: Style): string {
  const rows = whole.map((one) => {
    const { text, decimals } = UNITS[one.unit];
    return [
      MEASURES[one.measure].name,
      `${one.first.toFixed(decimals)}${text}`,
      `${one.second.toFixed(decimals)}${text}`,
      `${signedText(one.difference, decimals)}${text}`,
      one.measure === 'reps'
        ? ''
        : `${signedText(one.interval[0], decimals)} to ${signedText(one.interval[1], decimals)}`,
      one.told ? style.colors.yellow('≠ different') : 'cannot tell apart',
    ];
  });
  return plainTable(['Mean', 'First', 'Second', 'Change', '95 % interval', ''], rows, style);
}

function repTable({ reps }: BoutComparison, style: Style): string {
  const rows = reps.map((rep) => [
    String(rep.number),
    ...pairedCells(rep.eccentric, 1, '', style),
    ...pairedCells(rep.range, 0, '°', style),
  ]);
  return plainTable(['Rep', 'Lowering', 'then', 'change', 'Range', 'then', 'change'], rows, style);
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
  const step = 10 ** decimals;
  const half = (Math.ceil(difference.uncertainty * step - 1e-9) / step).toFixed(decimals);
  const change = `${signedText(difference.value, decimals)} ${colors.dim(`±${half}`)}${value.told ? colors.yellow(' ≠') : ''}`;
  return [text(value.first), text(value.second), change];
}

/** Agreement by Bland and Altman, in words. */
function agreementLines({ agreement }: BoutComparison, width: number): readonly string[] {
  const lines: string[] = [];
  const say = (what: string, unit: string, decimals: number, found: typeof agreement.eccentricSeconds) => {
    if (found === null) return;
    const text = (value: number) => `${signedText(value, decimals)}${unit}`;
    lines.push(
      wrapped(
        `${what} rep by rep: ${text(found.bias)} on average over ${found.pairs} pairs; 95 % of the differences lie between ${text(found.limits[0])} and ${text(found.limits[1])} (limits of agreement).`,
        width,
      ),
    );
  };
  say('Lowering', ' s', 2, agreement.eccentricSeconds);
  say('Range', '°', 1, agreement.rangeDegrees);
  return lines.length === 0 ? [] : ['', ...lines];
}
