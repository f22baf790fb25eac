import { withHistory } from '../history/file/history.js';
import { historyFile } from '../history/file/location.js';
import { readEntries } from '../history/sets/readEntries.js';
import { listScreen } from '../views/history/listScreen.js';
import { styleOf } from '../views/terminal/style.js';
import { setsOfExercise } from './setsOfExercise.js';

const MOST_ROWS = 20;

/** `tempofilm list`: the saved sets with their numbers. */
export function listSets(
  exercise: string | null,
  options: {
    readonly since?: string | undefined;
    readonly lifter?: string | undefined;
    readonly all?: true | undefined;
    readonly history?: string | undefined;
  },
): void {
  const selection = { since: options.since ?? null, lifter: options.lifter ?? null };
  const entries = withHistory(historyFile(options.history), 'reading', (history) =>
    readEntries(history, selection),
  );
  const most = options.all === true ? Number.POSITIVE_INFINITY : MOST_ROWS;
  process.stdout.write(listScreen(setsOfExercise(entries, exercise), most, styleOf(process.stdout)));
}
