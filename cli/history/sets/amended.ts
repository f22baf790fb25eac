import { CATALOGUE } from '../../../analysis/exercises/catalogue.js';
import type { SetReport } from '../../../analysis/report/setReport.js';
import { withoutReps } from '../../../analysis/report/withoutReps.js';
import type { Amendment } from './savedSet.js';

/** The report as the lifter amended it: what every view and every trend shows. */
export function amended(report: SetReport, amendments: readonly Amendment[]): SetReport {
  const exercise = CATALOGUE.find((known) => known.id === report.exercise.id) ?? null;
  return withoutReps(report, amendments, exercise);
}
