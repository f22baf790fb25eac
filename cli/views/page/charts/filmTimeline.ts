import * as Plot from '@observablehq/plot';
import type { Markup } from '../layout/markup.js';
import { drawPlot } from './drawPlot.js';

/** A stretch of the film: work of a side, or a rest. */
export interface Stretch {
  readonly name: string;
  readonly kind: 'work' | 'rest';
  readonly startSeconds: number;
  readonly endSeconds: number;
}

/** Work and rest along the whole film, one line. */
export function filmTimelineChart(
  stretches: readonly Stretch[],
  durationSeconds: number,
  ariaDescription: string,
): Markup {
  const middle = (stretch: Stretch) => (stretch.startSeconds + stretch.endSeconds) / 2;
  return drawPlot({
    width: 900,
    height: 118,
    marginLeft: 14,
    marginRight: 14,
    marginTop: 30,
    marginBottom: 36,
    ariaLabel: 'Work and rest along the film',
    ariaDescription,
    x: { domain: [0, durationSeconds], label: 'seconds of the film', labelAnchor: 'right' },
    y: { axis: null, domain: [0, 1] },
    marks: [
      Plot.rect(stretches, {
        x1: 'startSeconds',
        x2: 'endSeconds',
        y1: (stretch: Stretch) => (stretch.kind === 'work' ? 0 : 0.38),
        y2: (stretch: Stretch) => (stretch.kind === 'work' ? 1 : 0.62),
        fill: (stretch: Stretch) => (stretch.kind === 'work' ? 'var(--accent)' : 'var(--quiet)'),
        fillOpacity: (stretch: Stretch) => (stretch.kind === 'work' ? 0.22 : 0.3),
        stroke: (stretch: Stretch) => (stretch.kind === 'work' ? 'var(--accent)' : 'none'),
      }),
      Plot.text(stretches, {
        x: middle,
        y: (stretch: Stretch) => (stretch.kind === 'work' ? 0.5 : 1),
        text: 'name',
        fill: 'var(--ink)',
        fontSize: 12,
      }),
    ],
  });
}
