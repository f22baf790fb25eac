import * as Plot from '@observablehq/plot';
import type { Markup } from '../layout/markup.js';
import { drawPlot } from './drawPlot.js';

/** A rest between two sets, known to lie between two values, beside what was planned. */
export interface RestRange {
  readonly name: string;
  readonly leastSeconds: number;
  readonly mostSeconds: number;
  readonly plannedSeconds: number | null;
}

/** The rests of a workout as ranges, with a mark where the plan has one. */
export function restRangesChart(rests: readonly RestRange[], ariaDescription: string): Markup {
  const planned = rests.flatMap((rest) => (rest.plannedSeconds === null ? [] : [rest]));
  const most = Math.max(
    ...rests.map((rest) => rest.mostSeconds),
    ...planned.map((rest) => rest.plannedSeconds!),
  );
  return drawPlot({
    width: 560,
    height: rests.length * 30 + 66,
    marginLeft: 150,
    marginRight: 20,
    marginTop: 20,
    marginBottom: 40,
    ariaLabel: 'Rests',
    ariaDescription,
    x: {
      domain: [0, most * 1.06 + 1],
      label: 'seconds',
      labelAnchor: 'center',
      labelArrow: 'none',
      grid: true,
    },
    y: { domain: rests.map(({ name }) => name), label: null, padding: 0.3, tickSize: 0 },
    marks: [
      Plot.ruleY(rests, {
        y: 'name',
        x1: (rest: RestRange) => rest.leastSeconds,
        x2: (rest: RestRange) => Math.max(rest.mostSeconds, rest.leastSeconds + 1),
        stroke: 'var(--accent)',
        strokeWidth: 9,
        strokeLinecap: 'round',
      }),
      Plot.tickX(planned, {
        y: 'name',
        x: (rest: RestRange) => rest.plannedSeconds,
        stroke: 'var(--baseline)',
        strokeWidth: 2.4,
      }),
    ],
  });
}
