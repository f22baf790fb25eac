import type { SetReport } from '../../../analysis/report/setReport.js';
import type { Amendment } from '../../history/sets/savedSet.js';
import { filmTimeText } from '../words/numbers.js';

export interface AmendedSet {
  /** As it is to be shown. */
  readonly report: SetReport;
  readonly measured: SetReport;
  readonly amendments: readonly Amendment[];
}

/** What the lifter dropped, told beside the measurement that stands; empty where nothing was. */
export function amendmentSentences({ amendments, measured, report }: AmendedSet): readonly string[] {
  if (amendments.length === 0) return [];
  if (report === measured)
    return ['As measured; the set has been amended since (without --measured it shows how).'];
  return amendments.map(({ side, atSeconds, reason }) => {
    const rep = measured.bouts
      .flatMap((bout) => bout.reps)
      .find((one) => one.side === side && one.startSeconds <= atSeconds && atSeconds <= one.endSeconds);
    const which = rep === undefined ? 'is no longer among the reps' : `was measured as rep ${rep.number}`;
    const why = reason === null ? '' : ` (${reason})`;
    return `Amended: the movement at ${filmTimeText(atSeconds)} ${which} and was dropped by you${why}.`;
  });
}
