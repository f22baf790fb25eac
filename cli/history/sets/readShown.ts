import type { SetReport } from '../../../analysis/report/setReport.js';
import type { History } from '../file/history.js';
import { amended } from './amended.js';
import { readAmendments, storedReport } from './readSets.js';
import type { Amendment } from './savedSet.js';

export interface ShownSet {
  /** As the lifter amended it. */
  readonly report: SetReport;
  readonly measured: SetReport;
  readonly amendments: readonly Amendment[];
}

/** The report of a set as views show it, with the drops that were made and the measurement beside it. */
export function readShown(history: History, id: number): ShownSet {
  return history.read((database) => {
    const measured = storedReport(database, id);
    const amendments = readAmendments(database, id);
    return { measured, amendments, report: amended(measured, amendments) };
  });
}
