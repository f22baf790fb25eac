import * as Plot from '@observablehq/plot';
import type { Markup } from '../layout/markup.js';
import { decimal } from '../layout/numbers.js';
import { drawPlot } from './drawPlot.js';

/** Seconds a lowering spent in the first and in the second half of its way. */
export interface LoweringHalves {
  readonly rep: number;
  readonly firstSeconds: number;
  readonly secondSeconds: number;
}

const ROW_HEIGHT = 19;
const WIDTH = 360;

/** One bar a rep, split where the lowering passed the middle of its way; even is half and half. */
export function loweringEvennessChart(
  title: string,
  halves: readonly LoweringHalves[],
  ariaDescription: string,
): Markup {
  const share = (half: LoweringHalves) => half.firstSeconds / (half.firstSeconds + half.secondSeconds);
  const text = { fill: 'var(--ink)', stroke: 'var(--card)', strokeWidth: 4, fontSize: 11 } as const;
  return drawPlot({
    width: WIDTH,
    height: halves.length * ROW_HEIGHT + 62,
    marginLeft: 34,
    marginRight: 10,
    marginTop: 28,
    marginBottom: 34,
    ariaLabel: title,
    ariaDescription,
    x: {
      domain: [0, 100],
      ticks: [0, 25, 50, 75, 100],
      label: '% of the lowering’s time',
      labelAnchor: 'right',
      labelArrow: 'none',
    },
    y: { domain: halves.map((half) => half.rep), label: 'rep', labelArrow: 'none', padding: 0.25 },
    marks: [
      Plot.barX(halves, {
        y: 'rep',
        x1: 0,
        x2: (half: LoweringHalves) => share(half) * 100,
        fill: 'url(#pattern-eccentric)',
        stroke: 'var(--eccentric)',
      }),
      Plot.barX(halves, {
        y: 'rep',
        x1: (half: LoweringHalves) => share(half) * 100,
        x2: 100,
        fill: 'var(--eccentric)',
        fillOpacity: 0.14,
        stroke: 'var(--eccentric)',
      }),
      Plot.ruleX([50], { stroke: 'var(--baseline)', strokeDasharray: '5 4' }),
      Plot.text(halves, {
        ...text,
        y: 'rep',
        x: 3,
        textAnchor: 'start',
        text: (half: LoweringHalves) => `${decimal(half.firstSeconds, 1)} s`,
      }),
      Plot.text(halves, {
        ...text,
        y: 'rep',
        x: 97,
        textAnchor: 'end',
        text: (half: LoweringHalves) => `${decimal(half.secondSeconds, 1)} s`,
      }),
    ],
  });
}
