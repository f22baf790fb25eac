import type { SetReport, SymmetryReport } from '../../../analysis/report/setReport.js';
import { MEASURE_NAMES, UNITS } from '../words/measureWords.js';
import { signedText } from '../words/numbers.js';
import { plainTable } from './plainTable.js';
import type { Style } from './style.js';
import { wrapped } from './wrapped.js';

type Comparison = SymmetryReport['measures'][number];

/** Left against right: the sentence, then each measure with its interval. */
export function symmetryLines(report: SetReport, style: Style): string {
  const { symmetry } = report;
  if (symmetry === null) return '';
  const table = plainTable(
    ['', 'Left', 'Right', 'Left − right', '95 % interval', ''],
    symmetry.measures.map(row),
    style,
  );
  const first = `The ${symmetry.firstSide} side went first.`;
  return [wrapped(`${symmetry.sentence} ${first}`, style.width), table].join('\n');
}

function row({ measure, unit, left, right, difference, interval, different }: Comparison): string[] {
  const { text, decimals } = UNITS[unit];
  return [
    MEASURE_NAMES[measure],
    `${left.toFixed(decimals)}${text}`,
    `${right.toFixed(decimals)}${text}`,
    `${signedText(difference, decimals)}${text}`,
    `${signedText(interval[0], decimals)} to ${signedText(interval[1], decimals)}`,
    different ? '≠ different' : 'no difference seen',
  ];
}
