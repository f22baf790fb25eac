import type { Finding, SetReport } from '../../../analysis/report/setReport.js';
import type { Colors, Style } from './style.js';
import { wrapped } from './wrapped.js';

const LEVELS: Record<Finding['level'], { readonly lead: string; readonly color: keyof Colors }> = {
  problem: { lead: 'Problem: ', color: 'red' },
  warning: { lead: 'Mind: ', color: 'yellow' },
  note: { lead: 'Note: ', color: 'cyan' },
};

const ORDER: readonly Finding['level'][] = ['problem', 'warning', 'note'];

/** What the film could not tell or only with doubt, the gravest first, each with what would mend it. */
export function findingLines(
  report: { readonly quality: Pick<SetReport['quality'], 'findings'> },
  style: Style,
): string {
  const { findings } = report.quality;
  return ORDER.flatMap((level) => findings.filter((finding) => finding.level === level))
    .map((finding) => findingText(finding, style))
    .join('\n');
}

function findingText({ level, message, remedy }: Finding, { colors, width }: Style): string {
  const { lead, color } = LEVELS[level];
  const paint = colors[color] as (text: string) => string;
  const text = wrapped(message, width, lead);
  const lines = [`${paint(lead.trimEnd())}${text.slice(lead.trimEnd().length)}`];
  if (remedy !== null) lines.push(wrapped(remedy, width, '  → '));
  return lines.join('\n');
}
