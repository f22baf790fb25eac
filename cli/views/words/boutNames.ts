import type { SetReport } from '../../../analysis/report/setReport.js';

/** "Left", "Right", "Both sides" */
function sideName(side: 'left' | 'right' | 'both'): string {
  return side === 'both' ? 'Both sides' : side === 'left' ? 'Left' : 'Right';
}

/** Names of the bouts of a report: "Left", "Right", or with a number where a side works more than once. */
export function boutNames(report: SetReport): readonly string[] {
  const sides = report.bouts.map((bout) => bout.side);
  const seen = new Map<string, number>();
  return report.bouts.map((bout) => {
    const many = sides.filter((side) => side === bout.side).length > 1;
    const number = (seen.get(bout.side) ?? 0) + 1;
    seen.set(bout.side, number);
    const name = sideName(bout.side);
    return many ? `${name}, bout ${number}` : name;
  });
}
