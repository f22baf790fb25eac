import * as Plot from '@observablehq/plot';
import type { Markup } from '../layout/markup.js';
import { drawPlot } from './drawPlot.js';

/** Share of the planned lowering delivered in one bout of a set, 0 to 1, now or last time. */
export interface DeliveredOfSet {
  /** Place in the workout, from 1. */
  readonly place: number;
  readonly side: 'left' | 'right' | 'both';
  readonly when: 'now' | 'last time';
  readonly share: number;
}

const APART = { left: -0.16, both: 0, right: 0.16 } as const;
/** Left and right by shape as well: triangles point the way the side lies. */
const TURNS = { left: -90, both: 0, right: 90 } as const;

/** What was delivered set by set: filled now, hollow last time. */
export function setsAgainstLastTimeChart(
  values: readonly DeliveredOfSet[],
  sets: number,
  ariaDescription: string,
): Markup {
  const least = Math.min(0.5, ...values.map((value) => value.share));
  return drawPlot({
    width: 560,
    height: 230,
    marginLeft: 44,
    marginRight: 16,
    marginTop: 28,
    marginBottom: 36,
    ariaLabel: 'Delivered lowering, set by set',
    ariaDescription,
    x: {
      domain: [0.5, sets + 0.5],
      ticks: Array.from({ length: sets }, (_, index) => index + 1),
      tickFormat: 'd',
      label: 'set of the workout',
      labelArrow: 'none',
    },
    y: {
      domain: [Math.floor(least * 10) * 10, 100],
      label: '% delivered',
      labelArrow: 'none',
      ticks: 5,
      grid: true,
    },
    marks: [
      Plot.dot(values, {
        x: (value: DeliveredOfSet) => value.place + APART[value.side],
        y: (value: DeliveredOfSet) => value.share * 100,
        r: (value: DeliveredOfSet) => (value.when === 'now' ? 5 : 6.5),
        symbol: (value: DeliveredOfSet) => (value.side === 'both' ? 'circle' : 'triangle'),
        rotate: (value: DeliveredOfSet) => TURNS[value.side],
        fill: (value: DeliveredOfSet) => (value.when === 'now' ? 'var(--accent)' : 'none'),
        stroke: (value: DeliveredOfSet) => (value.when === 'now' ? 'var(--accent)' : 'var(--quiet)'),
        strokeWidth: 1.8,
      }),
    ],
  });
}
