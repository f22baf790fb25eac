import * as Plot from '@observablehq/plot';
import { decimal } from '../../words/numbers.js';
import type { Markup } from '../layout/markup.js';
import { drawPlot } from './drawPlot.js';
import { hatchedBoxes } from './hatching.js';

/** Seconds a lowering spent in the first and in the second half of its way. */
export interface LoweringHalves {
  readonly rep: number;
  readonly firstSeconds: number;
  readonly secondSeconds: number;
}

const ROW_HEIGHT = 19;
const WIDTH = 360;
/** Part of a row's height that its bar takes. */
const BAR = 0.38;

/** One bar a rep, split where the lowering passed the middle of its way; even is half and half. */
export function loweringEvennessChart(
  title: string,
  halves: readonly LoweringHalves[],
  ariaDescription: string,
): Markup {
  const share = (half: LoweringHalves) =>
    (100 * half.firstSeconds) / (half.firstSeconds + half.secondSeconds);
  const text = { fill: 'var(--ink)', fontSize: 11 } as const;
  const row = (_half: LoweringHalves, index: number) => index;
  const seconds = (value: number) => `${decimal(value, 1)} s`;
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
      label: '% of the time',
      labelAnchor: 'right',
      labelArrow: 'none',
    },
    y: {
      domain: [-0.5, halves.length - 0.5],
      reverse: true,
      ticks: halves.map((_, index) => index),
      tickFormat: (index: number) => String(halves[index]?.rep ?? ''),
      tickSize: 0,
      label: 'rep',
      labelArrow: 'none',
    },
    marks: [
      hatchedBoxes(
        halves.map((half, index) => ({
          kind: 'eccentric',
          x1: 0,
          x2: share(half),
          y1: index - BAR,
          y2: index + BAR,
        })),
      ),
      Plot.rect(halves, {
        x1: share,
        x2: 100,
        y1: (_half: LoweringHalves, index: number) => index - BAR,
        y2: (_half: LoweringHalves, index: number) => index + BAR,
        fill: 'var(--eccentric)',
        fillOpacity: 0.14,
      }),
      // A plain ground for the seconds, which could not be read on the pattern.
      Plot.rect(halves, {
        x1: 1,
        x2: (half: LoweringHalves) => 1 + (half.firstSeconds >= 9.95 ? 13 : 11),
        y1: (_half: LoweringHalves, index: number) => index - BAR,
        y2: (_half: LoweringHalves, index: number) => index + BAR,
        fill: 'var(--card)',
      }),
      Plot.ruleX([50], { stroke: 'var(--baseline)', strokeDasharray: '5 4' }),
      Plot.text(halves, {
        ...text,
        y: row,
        x: 2,
        textAnchor: 'start',
        text: (half: LoweringHalves) => seconds(half.firstSeconds),
      }),
      Plot.text(halves, {
        ...text,
        y: row,
        x: 98,
        textAnchor: 'end',
        text: (half: LoweringHalves) => seconds(half.secondSeconds),
      }),
    ],
  });
}
