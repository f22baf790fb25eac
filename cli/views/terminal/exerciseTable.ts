import CliTable3 from 'cli-table3';
import type { Exercise } from '../../../analysis/exercises/exercise.js';
import { FRAMELESS } from './frameless.js';
import type { Style } from './style.js';
import { wrapped } from './wrapped.js';

const SEEN: Record<Exercise['visibility'], string> = { yes: 'well', partly: 'partly', poorly: 'poorly' };

/** Known exercises, a line each: the name to type, the joint that times it, where to film from, how well it is seen. */
export function exerciseTable(exercises: readonly Exercise[], { colors, width }: Style): string {
  const table = new CliTable3({ ...FRAMELESS, style: { 'padding-left': 0, 'padding-right': 2 } });
  table.push(['Exercise', 'Timed by', 'Film from', 'Seen'].map((title) => colors.bold(title)));
  for (const { id, drivingAngle, advisedViews, visibility } of exercises) {
    table.push([id, drivingAngle.replaceAll('-', ' '), advisedViews.join(', '), SEEN[visibility]]);
  }
  const rows = table
    .toString()
    .split('\n')
    .map((line) => line.trimEnd());
  const closing = wrapped('How to film one of them: tempofilm exercises <exercise>', width);
  return `${rows.join('\n')}\n\n${colors.dim(closing)}\n`;
}
