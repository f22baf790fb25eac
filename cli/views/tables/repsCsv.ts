import type { BoutReport, PhaseReport, RepReport, SetReport } from '../../../analysis/report/setReport.js';
import { PHASES_IN_PLAN_ORDER, type PhaseKind } from '../words/phaseWords.js';
import { type CsvValue, csvLine } from './csv.js';

interface RepInSet {
  readonly report: SetReport;
  /** Number of the bout in the film, from 1. */
  readonly bout: number;
  readonly boutReport: BoutReport;
  readonly rep: RepReport;
}

interface Column {
  readonly name: string;
  readonly value: (row: RepInSet) => CsvValue;
}

/**
 * The columns, a row a rep. The unit is the end of a column's name; `uncertainty` is the half width of a 95 %
 * interval. A planned `X` is written `X`, and what was not prescribed or not measured is empty.
 */
export const REP_COLUMNS: readonly Column[] = [
  { name: 'film', value: ({ report }) => report.film.file },
  { name: 'recorded_at', value: ({ report }) => report.film.recordedAt },
  { name: 'exercise', value: ({ report }) => report.exercise.id },
  { name: 'bout', value: ({ bout }) => bout },
  { name: 'side', value: ({ rep }) => rep.side },
  { name: 'rep', value: ({ rep }) => rep.number },
  { name: 'stage', value: ({ rep }) => rep.stage },
  { name: 'complete', value: ({ rep }) => rep.complete },
  { name: 'partial', value: ({ rep }) => rep.partial },
  { name: 'failed', value: ({ rep }) => rep.failed },
  { name: 'start_seconds', value: ({ rep }) => rep.startSeconds },
  { name: 'end_seconds', value: ({ rep }) => rep.endSeconds },
  ...PHASES_IN_PLAN_ORDER.flatMap(phaseColumns),
  { name: 'range_degrees', value: ({ rep }) => rep.range?.degrees },
  { name: 'range_uncertainty_degrees', value: ({ rep }) => rep.range?.uncertaintyDegrees },
  { name: 'stretched_degrees', value: ({ rep }) => rep.range?.stretchedDegrees },
  { name: 'contracted_degrees', value: ({ rep }) => rep.range?.contractedDegrees },
  { name: 'share_of_baseline', value: ({ rep }) => rep.range?.ofBaseline },
  { name: 'shortened', value: ({ rep }) => rep.range?.shortened },
  { name: 'shortened_at', value: ({ rep }) => rep.range?.shortenedAt },
  { name: 'concentric_speed_degrees_per_second', value: ({ rep }) => rep.concentricSpeedDegreesPerSecond },
  { name: 'camera_facing', value: ({ boutReport }) => boutReport.view.facing },
  { name: 'camera_off_side_degrees', value: ({ boutReport }) => boutReport.view.degreesOffSide },
];

function phaseColumns(kind: PhaseKind): Column[] {
  const name = kind.replace('-', '_');
  const phaseOf = ({ rep }: RepInSet): PhaseReport | undefined =>
    rep.phases.find((phase) => phase.kind === kind);
  return [
    { name: `${name}_seconds`, value: (row) => phaseOf(row)?.seconds },
    { name: `${name}_uncertainty_seconds`, value: (row) => phaseOf(row)?.uncertaintySeconds },
    { name: `${name}_planned_seconds`, value: (row) => phaseOf(row)?.plannedSeconds },
    { name: `${name}_verdict`, value: (row) => phaseOf(row)?.verdict },
  ];
}

export const REP_CSV_HEADER: string = csvLine(REP_COLUMNS.map(({ name }) => name));

/** The reps of a report as CSV records, without the header. */
export function repsCsv(report: SetReport): string {
  return report.bouts
    .flatMap((boutReport, index) =>
      boutReport.reps.map((rep): RepInSet => ({ report, bout: index + 1, boutReport, rep })),
    )
    .map((row) => csvLine(REP_COLUMNS.map((column) => column.value(row))))
    .join('');
}
