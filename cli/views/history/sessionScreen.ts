import { findExercise } from '../../../analysis/exercises/catalogue.js';
import { formatLoad } from '../../../analysis/plan/load.js';
import type { SessionSlot } from '../../../analysis/session/sessionSlots.js';
import type { BoutFigures } from '../../history/figures.js';
import type { SessionReport, SessionSet } from '../../history/session/sessionReport.js';
import { percentText, secondsText } from '../terminal/figures.js';
import type { Style } from '../terminal/style.js';
import { wrapped } from '../terminal/wrapped.js';
import { dayText } from './days.js';
import { filledColumns, fittingTable } from './plainTable.js';
import { counted } from './setWords.js';

const SIDES = { left: 'L ', right: 'R ', both: '' } as const;

/** A workout in one view: the sentence, a line a set with the same set last time beside it, what is missing. */
export function sessionScreen(session: SessionReport, style: Style): string {
  const { colors, width } = style;
  const rows = session.sets.map((set, index) => row(set, index, style));
  const shown = filledColumns(
    ['', 'Exercise', 'Load', 'Reps', 'Delivered', 'Lowering', 'Rest before', 'Planned', 'Last time'],
    rows,
  );
  const blocks = [
    colors.bold(wrapped(sentence(session), width)),
    fittingTable(shown.titles, shown.rows, ['Load', 'Lowering'], style),
    faultLines(session, style),
    missingLine(session, style),
    notes(session, style),
  ];
  return `${blocks.filter((block) => block !== '').join('\n\n')}\n`;
}

function sentence({ name, sets, missing }: SessionReport): string {
  const answered = sets.filter((set) => set.report?.quality.usable === true);
  const planned = sets.filter((set) => set.slot !== null).length + missing.length;
  const summaries = answered.flatMap((set) => set.report!.bouts.map((bout) => bout.summary));
  const delivered = sum(summaries.map((summary) => summary.deliveredLoweringSeconds ?? 0));
  const wanted = sum(summaries.map((summary) => summary.plannedLoweringSeconds ?? 0));
  const start = `${name === null ? '' : `${name}: `}${answered.length} of ${counted(planned, 'planned set')} measured`;
  if (wanted === 0) return `${start}.`;
  return `${start}; delivered ${Math.round(delivered)} of ${Math.round(wanted)} planned lowering seconds (${percentText(delivered / wanted)}).`;
}

function row(set: SessionSet, index: number, { colors }: Style): readonly string[] {
  const { slot, bouts } = set;
  return [
    String(index + 1),
    slot === null ? 'not in the plan' : slotName(slot),
    slot?.planned.load == null ? '' : formatLoad(slot.planned.load),
    repsText(bouts),
    deliveredText(bouts),
    bouts
      .flatMap((bout) =>
        bout.medianEccentricSeconds === null ? [] : [secondsText(bout.medianEccentricSeconds)],
      )
      .join(' '),
    restText(set),
    set.plannedRestSeconds === null || set.restBefore === null ? '' : `${set.plannedRestSeconds} s`,
    set.lastTime === null
      ? ''
      : colors.dim(
          `${dayText(set.lastTime.recordedAt.instant)}: ${repsText(set.lastTime.bouts)}, ${deliveredText(set.lastTime.bouts)}`.replace(
            /, $/,
            '',
          ),
        ),
  ];
}

function slotName({ planned, setNumber }: SessionSlot): string {
  const pair = planned.pair === null ? '' : `${planned.pair}: `;
  const number = planned.sets === 1 ? '' : `, set ${setNumber}`;
  return `${pair}${findExercise(planned.exerciseId).name}${number}`;
}

function repsText(bouts: readonly BoutFigures[]): string {
  return bouts.map((bout) => `${SIDES[bout.side]}${bout.completeReps}`).join(' ');
}

function deliveredText(bouts: readonly BoutFigures[]): string {
  return bouts
    .flatMap((bout) =>
      bout.deliveredLoweringShare === null ? [] : [percentText(bout.deliveredLoweringShare)],
    )
    .join(' ');
}

/** One value where it is known well, a range where the phone's stamp leaves it open. */
function restText({ restBefore }: SessionSet): string {
  if (restBefore === null) return '·';
  const { leastSeconds, mostSeconds } = restBefore;
  const middle = Math.round((leastSeconds + mostSeconds) / 2);
  if (mostSeconds - leastSeconds <= 6) return `${middle} s ±${Math.ceil((mostSeconds - leastSeconds) / 2)}`;
  return `${Math.round(leastSeconds)} to ${Math.round(mostSeconds)} s`;
}

function faultLines({ sets }: SessionReport, { width }: Style): string {
  return sets
    .flatMap(({ film, report, fault }, index) => {
      const reason = fault ?? (report?.quality.usable === false ? report.headline : null);
      return reason === null ? [] : [wrapped(`${film}: ${reason}`, width, `${index + 1}  `)];
    })
    .join('\n');
}

function missingLine({ missing }: SessionReport, { colors, width }: Style): string {
  if (missing.length === 0) return '';
  return colors.yellow(wrapped(`No film for: ${missing.map(slotName).join('; ')}.`, width));
}

function notes({ sets }: SessionReport, { colors, width }: Style): string {
  const lines: string[] = [];
  if (
    sets.some(({ restBefore }) => restBefore !== null && restBefore.mostSeconds - restBefore.leastSeconds > 6)
  ) {
    lines.push(
      'A rest is a range where it cannot be told whether the phone stamps the start or the end of a recording.',
    );
  }
  if (sets.slice(1).some(({ restBefore, report }) => restBefore === null && report !== null)) {
    lines.push(
      'No rest is told where the films do not say when they were recorded. Copy them from the phone unchanged.',
    );
  }
  if (sets.some(({ lastTime }) => lastTime?.invented === true))
    lines.push('Last time was invented for demonstration.');
  lines.push('Pain, dizziness or chest discomfort means stop. Not medical or coaching advice.');
  return lines.map((line) => colors.dim(wrapped(line, width))).join('\n');
}

function sum(values: readonly number[]): number {
  return values.reduce((total, value) => total + value, 0);
}
