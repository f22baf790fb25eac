import { type History, withHistory } from '../history/file/history.js';
import { historyFile } from '../history/file/location.js';
import {
  type FollowedSet,
  readEntries,
  readFollowedSets,
  type Selection,
} from '../history/sets/readEntries.js';
import { sideGaps } from '../history/weeks/sideGap.js';
import { followSides } from '../history/weeks/trends.js';
import { writePage } from '../output/writePage.js';
import { historyCsv } from '../views/history/historyCsv.js';
import { historyJson } from '../views/history/historyJson.js';
import { historyScreen } from '../views/history/historyScreen.js';
import { styleOf } from '../views/terminal/style.js';
import { setsOfExercise } from './setsOfExercise.js';

export interface HistoryQuestion {
  readonly exercise: string | null;
  readonly since?: string | undefined;
  readonly lifter?: string | undefined;
  readonly side?: 'left' | 'right' | 'both' | undefined;
  readonly format: 'text' | 'json' | 'csv';
  readonly page?: string | undefined;
  readonly force?: true | undefined;
  readonly history?: string | undefined;
}

/** `tempofilm history`: prints the sets over time and writes the page where one is asked for. */
export async function showHistory(question: HistoryQuestion): Promise<void> {
  // The screen shows less of a set than the tables do.
  const entries = question.format === 'text' ? [] : read(question, readEntries);
  const sets = question.format === 'text' ? read(question, readFollowedSets) : entries;
  const side = question.side ?? null;
  const sides = followSides(sets, side);
  const gaps = side === null ? sideGaps(sides) : [];
  if (question.page !== undefined) {
    const { historyPage } = await import('../views/page/historyPage.js');
    await writePage(question.page, historyPage(sides, gaps), question.force === true);
  }
  switch (question.format) {
    case 'json':
      process.stdout.write(`${JSON.stringify(historyJson(entries, sides, gaps))}\n`);
      break;
    case 'csv':
      process.stdout.write(historyCsv(entries, side));
      break;
    case 'text':
      process.stdout.write(historyScreen(sides, gaps, question.exercise !== null, styleOf(process.stdout)));
  }
}

function read<Read extends FollowedSet>(
  { since, lifter, exercise, history: file }: HistoryQuestion,
  sets: (history: History, selection: Selection) => readonly Read[],
): readonly Read[] {
  const selection = { since: since ?? null, lifter: lifter ?? null };
  const all = withHistory(historyFile(file), 'reading', (history) => sets(history, selection));
  return setsOfExercise(all, exercise);
}
