import { CAUTION_IN_SHORT } from '../../../analysis/report/cautions.js';
import type { SessionReport, SessionSet } from '../../session/sessionReport.js';
import { filledColumns, fittingTable } from '../terminal/plainTable.js';
import type { Style } from '../terminal/style.js';
import { wrapped } from '../terminal/wrapped.js';
import {
  controlText,
  dayOfLastTime,
  deliveredText,
  faultOf,
  lastTimeText,
  loweringText,
  markedReps,
  plannedLoadWords,
  REP_MARKS,
  restAgainstPlan,
  sessionNotes,
  sessionSentence,
  sessionSetName,
  slotName,
} from './sessionWords.js';

/** A workout in one view: the sentence, a line a set with the same set last time beside it, what is missing. */
export function sessionScreen(session: SessionReport, style: Style): string {
  const { colors, width } = style;
  const blocks = [
    colors.bold(wrapped(sessionSentence(session), width)),
    setTable(session, style),
    faultLines(session, style),
    missingLine(session, style),
    [
      ...(session.sets.some((set) => /[▼▲]/.test(markedReps(set))) ? [REP_MARKS] : []),
      ...sessionNotes(session),
      CAUTION_IN_SHORT,
    ]
      .map((line) => colors.dim(wrapped(line, width)))
      .join('\n'),
  ];
  return `${blocks.filter((block) => block !== '').join('\n\n')}\n`;
}

function setTable(session: SessionReport, style: Style): string {
  const { colors } = style;
  const day = dayOfLastTime(session);
  const shown = filledColumns(
    [
      '',
      'Exercise',
      'Load',
      'Reps',
      'Delivered',
      'Lowering',
      'Control',
      'Rest (plan)',
      day === null ? 'Last time' : day,
    ],
    session.sets.map((set, index) => [
      String(index + 1),
      sessionSetName(set),
      plannedLoadWords(set),
      markedReps(set),
      deliveredText(set.bouts),
      loweringText(set.bouts),
      controlText(set.bouts),
      restAgainstPlan(set),
      colors.dim(lastTimeText(set, day)),
    ]),
  );
  return fittingTable(shown.titles, shown.rows, ['Lowering', 'Control', 'Load'], style);
}

function faultLines({ sets }: SessionReport, { width }: Style): string {
  return sets
    .flatMap((set, index) => {
      const reason = faultOf(set);
      return reason === null ? [] : [wrapped(faultLine(set, reason), width, `${index + 1}  `)];
    })
    .join('\n');
}

/** A failure names its film itself. */
function faultLine({ film }: SessionSet, reason: string): string {
  return reason.includes(film) ? reason : `${film}: ${reason}`;
}

function missingLine({ missing }: SessionReport, { colors, width }: Style): string {
  if (missing.length === 0) return '';
  return colors.yellow(wrapped(`No film for: ${missing.map(slotName).join('; ')}.`, width));
}
