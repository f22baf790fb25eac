import type { HistoryEntry } from '../../history/sets/readEntries.js';
import { filledColumns, fittingTable } from '../terminal/plainTable.js';
import type { Style } from '../terminal/style.js';
import { wrapped } from '../terminal/wrapped.js';
import { dayText, timeOfDayText } from '../words/days.js';
import { counted } from '../words/grammar.js';
import { percentText } from '../words/numbers.js';
import { loadWords, marks } from '../words/setWords.js';

/** The saved sets, the latest first, with what names each on the command line. */
export function listScreen(entries: readonly HistoryEntry[], most: number, style: Style): string {
  const { colors, width } = style;
  if (entries.length === 0) return `${colors.bold('No sets are saved yet.')}\n`;
  const latest = entries.toReversed();
  const exercises = new Set(entries.map((entry) => entry.exercise.id)).size;
  const sentence = `${counted(entries.length, 'set')} of ${counted(exercises, 'exercise')}, the latest on ${dayText(latest[0]!.recordedAt.instant)}.`;
  const rows = latest.slice(0, most).map(listRow);
  const shown = filledColumns(
    ['Set', 'Filmed', 'Exercise', 'Reps', 'Delivered', 'Load', 'Lifter', '', 'Note'],
    rows,
  );
  const blocks = [
    colors.bold(wrapped(sentence, width)),
    fittingTable(shown.titles, shown.rows, ['Note', 'Lifter'], style),
    remainder(entries, rows.length, style),
  ];
  return `${blocks.filter((block) => block !== '').join('\n\n')}\n`;
}

function listRow(entry: HistoryEntry): readonly string[] {
  const { instant, source } = entry.recordedAt;
  return [
    String(entry.id),
    `${dayText(instant)} ${timeOfDayText(instant)}${source === 'film' ? '' : ' ~'}`,
    entry.exercise.name,
    entry.bouts.map(({ side, completeReps }) => `${SIDES[side]}${completeReps}`).join(' '),
    [...new Set(entry.bouts.map((bout) => bout.deliveredLoweringShare))]
      .flatMap((share) => (share === null ? [] : [percentText(share)]))
      .join(' '),
    loadWords(entry.details),
    entry.details.lifter ?? '',
    marks(entry),
    shortened(entry.details.note ?? ''),
  ];
}

const SIDES = { left: 'L ', right: 'R ', both: '' } as const;

function shortened(note: string): string {
  const line = note.replaceAll(/\s+/g, ' ');
  return line.length > 24 ? `${line.slice(0, 23)}…` : line;
}

function remainder(entries: readonly HistoryEntry[], shown: number, { colors, width }: Style): string {
  const lines: string[] = [];
  if (shown < entries.length)
    lines.push(`${entries.length - shown} earlier sets are not shown; --all shows them.`);
  if (entries.some((entry) => entry.recordedAt.source !== 'film')) {
    lines.push('~ the film does not say when it was recorded; this is the date of its file.');
  }
  lines.push('tempofilm show <set> shows one again.');
  return lines.map((line) => colors.dim(wrapped(line, width))).join('\n');
}
