import type { RestReport, SetReport } from '../../../analysis/report/setReport.js';
import { decimal, filmTimeText } from '../words/numbers.js';
import type { Style } from './style.js';
import { wrapped } from './wrapped.js';

/** Rests and changes of side between the bouts, a line each. */
export function restLines(report: SetReport, { width }: Style): string {
  return report.rests.map((rest) => wrapped(restLine(rest), width)).join('\n');
}

function restLine({ kind, startSeconds, endSeconds, seconds, plannedSeconds }: RestReport): string {
  const span = `${filmTimeText(startSeconds)} to ${filmTimeText(endSeconds)}`;
  const length = `${decimal(seconds, 1)} s`;
  if (kind === 'side-change') return `Change of side ${length} (${span}).`;
  return `Rest ${length} (${span})${plannedSeconds === null ? '' : `, planned ${plannedSeconds} s`}.`;
}
