import CliTable3 from 'cli-table3';
import type { SetReport, SymmetryReport } from '../../../analysis/report/setReport.js';
import { signedText } from './figures.js';
import { FRAMELESS } from './frameless.js';
import type { Style } from './style.js';
import { wrapped } from './wrapped.js';

type Comparison = SymmetryReport['measures'][number];

const NAMES: Record<Comparison['measure'], string> = {
  range: 'Range',
  'eccentric-seconds': 'Lowering',
  'concentric-seconds': 'Lift',
  reps: 'Reps',
};

const UNITS: Record<Comparison['unit'], { readonly text: string; readonly decimals: number }> = {
  degrees: { text: '°', decimals: 0 },
  seconds: { text: ' s', decimals: 2 },
  reps: { text: '', decimals: 0 },
};

/** Left against right: the sentence, then each measure with its interval. */
export function symmetryLines(report: SetReport, { colors, width }: Style): string {
  const { symmetry } = report;
  if (symmetry === null) return '';
  const table = new CliTable3({ ...FRAMELESS, style: { 'padding-left': 0, 'padding-right': 2 } });
  table.push(
    ['', 'Left', 'Right', 'Left − right', '95 % interval', ''].map((title) =>
      title === '' ? '' : colors.bold(title),
    ),
  );
  for (const measure of symmetry.measures) table.push(row(measure));
  const rows = table
    .toString()
    .split('\n')
    .map((line) => line.trimEnd());
  const first = `The ${symmetry.firstSide} side went first.`;
  return [wrapped(`${symmetry.sentence} ${first}`, width), ...rows].join('\n');
}

function row({ measure, unit, left, right, difference, interval, different }: Comparison): string[] {
  const { text, decimals } = UNITS[unit];
  return [
    NAMES[measure],
    `${left.toFixed(decimals)}${text}`,
    `${right.toFixed(decimals)}${text}`,
    `${signedText(difference, decimals)}${text}`,
    `${signedText(interval[0], decimals)} to ${signedText(interval[1], decimals)}`,
    different ? '≠ different' : 'no difference seen',
  ];
}
