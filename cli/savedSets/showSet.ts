import { CATALOGUE } from '../../analysis/exercises/catalogue.js';
import { Failure } from '../../core/failure.js';
import { type History, openHistory } from '../history/file/history.js';
import { historyFile } from '../history/file/location.js';
import { findSet, namedSet } from '../history/sets/findSet.js';
import type { HistoryEntry } from '../history/sets/readEntries.js';
import { readExercise } from '../history/sets/readSets.js';
import { readShown } from '../history/sets/readShown.js';
import type { PageOptions } from '../pipeline/writeSetPage.js';
import { amendmentSentences } from '../views/history/amendmentSentences.js';
import { savedSetScreen } from '../views/history/savedSetScreen.js';
import { REP_CSV_HEADER, repsCsv } from '../views/tables/repsCsv.js';
import { styleOf } from '../views/terminal/style.js';
import { dayText } from '../views/words/days.js';

export interface ShowOptions extends PageOptions {
  readonly format: 'text' | 'json' | 'csv';
  readonly measured?: true | undefined;
  readonly page?: string | undefined;
  readonly history?: string | undefined;
}

/** `tempofilm show`: a saved set again, as it was printed when it was analyzed. */
export async function showSet(name: string, options: ShowOptions): Promise<void> {
  const named = await namedSet(name);
  const history = openHistory(historyFile(options.history), 'reading');
  try {
    const entry = findSet(history, named);
    const shown = readShown(history, entry.id);
    const report = options.measured === true ? shown.measured : shown.report;
    if (options.page !== undefined) {
      if (entry.invented) throw inventedHasNoPage(entry.id);
      const { writeSavedSetPage } = await import('./savedSetPage.js');
      const asked = { ...options, ...(named.key === null ? {} : { film: name }) };
      const about = {
        ...entry.details,
        filmed: `${dayText(entry.recordedAt.instant)} (date of the file)`,
        amendments: amendmentSentences({ ...shown, report }),
      };
      await writeSavedSetPage(options.page, history, entry.id, report, asked, about);
    }
    switch (options.format) {
      case 'json':
        process.stdout.write(`${JSON.stringify(report, null, 2)}\n`);
        break;
      case 'csv':
        process.stdout.write(`${REP_CSV_HEADER}${repsCsv(report)}`);
        break;
      case 'text':
        process.stdout.write(
          savedSetScreen(
            { ...shown, report, entry, words: wordsOf(history, entry) },
            styleOf(process.stdout),
          ),
        );
    }
  } finally {
    history.close();
  }
}

function inventedHasNoPage(id: number): Failure {
  return new Failure(
    'usage',
    `Set ${id} is invented: it has no film, and so no page.`,
    'history and compare draw pages of invented sets.',
  );
}

function wordsOf(history: History, { id, exercise }: HistoryEntry) {
  const scoredAs = readExercise(history, id) ?? CATALOGUE.find((one) => one.id === exercise.id);
  return scoredAs?.words ?? null;
}
