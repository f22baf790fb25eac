import type { SetReport, SymmetryReport } from '../../../analysis/report/setReport.js';
import { capitalized } from '../words/grammar.js';
import { MEASURE_NAMES, UNITS } from '../words/measureWords.js';
import { signedText } from '../words/numbers.js';
import type { PhaseWords } from '../words/phaseWords.js';
import { plainTable } from './plainTable.js';
import type { Style } from './style.js';
import { wrapped } from './wrapped.js';

type Comparison = SymmetryReport['measures'][number];

/** Left against right: the sentence, then each measure with its interval. */
export function symmetryLines(report: SetReport, words: PhaseWords, style: Style): string {
  const { symmetry } = report;
  if (symmetry === null) return '';
  const table = plainTable(
    ['', 'Left', 'Right', 'Left − right', '95 % interval', ''],
    symmetry.measures.map((comparison) => row(comparison, words)),
    style,
  );
  const first = `The ${symmetry.firstSide} side went first.`;
  return [wrapped(`${symmetry.sentence} ${first}`, style.width), table].join('\n');
}

function row(comparison: Comparison, words: PhaseWords): string[] {
  const { measure, unit, left, right, difference, interval, different } = comparison;
  const { text, decimals } = UNITS[unit];
  return [
    measureName(measure, words),
    `${left.toFixed(decimals)}${text}`,
    `${right.toFixed(decimals)}${text}`,
    `${signedText(difference, decimals)}${text}`,
    `${signedText(interval[0], decimals)} to ${signedText(interval[1], decimals)}`,
    different ? '≠ different' : 'no difference seen',
  ];
}

/** Phases are called here what they are called in the table of the reps. */
function measureName(measure: Comparison['measure'], words: PhaseWords): string {
  if (measure === 'eccentric-seconds') return capitalized(words.eccentric);
  if (measure === 'concentric-seconds') return capitalized(words.concentric);
  return MEASURE_NAMES[measure];
}
