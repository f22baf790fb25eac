import type { SymmetryReport } from '../../../analysis/report/setReport.js';

type Comparison = SymmetryReport['measures'][number];

/** The measures that two sides or two sets are compared in, as titles of rows. */
export const MEASURE_NAMES: Record<Comparison['measure'], string> = {
  range: 'Range',
  'eccentric-seconds': 'Lowering',
  'concentric-seconds': 'Lift',
  reps: 'Reps',
};

/** Their units, with as many decimals as one camera can promise. */
export const UNITS: Record<Comparison['unit'], { readonly text: string; readonly decimals: number }> = {
  degrees: { text: '°', decimals: 0 },
  seconds: { text: ' s', decimals: 2 },
  reps: { text: '', decimals: 0 },
};
