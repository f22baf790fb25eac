import type { Exercise } from '../../../analysis/exercises/exercise.js';
import { plainTable } from './plainTable.js';
import type { Style } from './style.js';
import { wrapped } from './wrapped.js';

const SEEN: Record<Exercise['visibility'], string> = { yes: 'well', partly: 'partly', poorly: 'poorly' };

/** Known exercises, a line each: the name to type, the joint that times it, where to film from, how well it is seen. */
export function exerciseTable(exercises: readonly Exercise[], style: Style): string {
  const { colors, width } = style;
  const rows = exercises.map(({ id, drivingAngle, advisedViews, visibility }) => [
    id,
    drivingAngle.replaceAll('-', ' '),
    advisedViews.join(', '),
    SEEN[visibility],
  ]);
  const table = plainTable(['Exercise', 'Timed by', 'Film from', 'Seen'], rows, style);
  const closing = wrapped('How to film one of them: tempofilm exercises <exercise>', width);
  return `${table}\n\n${colors.dim(closing)}\n`;
}
