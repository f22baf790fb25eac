import { CATALOGUE } from '../../analysis/exercises/catalogue.js';
import type { SetReport } from '../../analysis/report/setReport.js';
import { openHistory } from '../history/file/history.js';
import { historyFile } from '../history/file/location.js';
import { findSetOrFilm } from '../history/sets/findSet.js';
import { readShown } from '../history/sets/readShown.js';
import type { PageOptions } from '../pipeline/writeSetPage.js';
import { savedSetScreen } from '../views/history/savedSetScreen.js';
import { REP_CSV_HEADER, repsCsv } from '../views/tables/repsCsv.js';
import { styleOf } from '../views/terminal/style.js';

export interface ShowOptions extends PageOptions {
  readonly format: 'text' | 'json' | 'csv';
  readonly measured?: true | undefined;
  readonly page?: string | undefined;
  readonly history?: string | undefined;
}

/** `tempofilm show`: a saved set again, as it was printed when it was analyzed. */
export async function showSet(named: string, options: ShowOptions): Promise<void> {
  const history = openHistory(historyFile(options.history), 'reading');
  try {
    const entry = await findSetOrFilm(history, named);
    const shown = readShown(history, entry.id);
    const report = options.measured === true ? shown.measured : shown.report;
    if (options.page !== undefined) {
      const { writeSavedSetPage } = await import('./savedSetPage.js');
      const { note } = entry.details;
      await writeSavedSetPage(options.page, history, entry.id, report, {
        ...options,
        ...(note === null ? {} : { note }),
      });
      process.stderr.write(`Page written to ${options.page}\n`);
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
          savedSetScreen({ ...shown, report, entry, words: wordsOf(report) }, styleOf(process.stdout)),
        );
    }
  } finally {
    history.close();
  }
}

function wordsOf(report: SetReport) {
  return CATALOGUE.find((exercise) => exercise.id === report.exercise.id)?.words ?? null;
}
