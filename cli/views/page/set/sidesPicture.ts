import type { SetReport, SymmetryReport } from '../../../../analysis/report/setReport.js';
import { decimal } from '../../words/numbers.js';
import { type SideDifference, sideDifferencesChart } from '../charts/sideDifferences.js';
import type { Markup } from '../layout/markup.js';
import { picture } from '../layout/picture.js';
import type { PhaseNames } from './wordsOfSet.js';

type Measure = SymmetryReport['measures'][number];

const DIGITS: Readonly<Record<Measure['unit'], number>> = { degrees: 1, seconds: 2, reps: 0 };

function measureName(measure: Measure, words: PhaseNames): string {
  if (measure.measure === 'eccentric-seconds') return `${words.eccentric} time`;
  if (measure.measure === 'concentric-seconds') return `${words.concentric} time`;
  return measure.measure;
}

/** Left against right; null where only one side worked or could be measured. */
export function sidesPicture(report: SetReport, words: PhaseNames): Markup | null {
  const { symmetry } = report;
  if (symmetry === null || symmetry.measures.length === 0) return null;
  const differences = symmetry.measures.flatMap((measure): SideDifference[] => {
    const mean = (Math.abs(measure.left) + Math.abs(measure.right)) / 2;
    if (mean === 0) return [];
    return [
      {
        name: measureName(measure, words),
        share: measure.difference / mean,
        interval: [measure.interval[0] / mean, measure.interval[1] / mean],
        different: measure.different,
      },
    ];
  });
  return picture({
    title: 'Left against right',
    caption: `${symmetry.sentence} The ${symmetry.firstSide} side went first. Lines are 95 % intervals; a filled circle is a difference the camera could tell, a hollow one is not. A camera sees no strength.`,
    charts: [sideDifferencesChart(differences, symmetry.sentence)],
    numbers: {
      columns: [
        'Measure',
        'left',
        'right',
        'left minus right',
        '95 % interval',
        'left over right',
        'different',
      ],
      rows: symmetry.measures.map((measure) => {
        const digits = DIGITS[measure.unit];
        return [
          `${measureName(measure, words)}, ${measure.unit}`,
          decimal(measure.left, digits),
          decimal(measure.right, digits),
          decimal(measure.difference, digits),
          `${decimal(measure.interval[0], digits)} to ${decimal(measure.interval[1], digits)}`,
          measure.ratio === null ? '–' : decimal(measure.ratio, 2),
          measure.different ? 'yes' : 'no',
        ];
      }),
    },
  });
}
