import * as Plot from '@observablehq/plot';
import type { Markup } from '../layout/markup.js';
import { drawPlot } from './drawPlot.js';

/** The value of one rep in one of two sets, with the half width of its 95 % interval. */
export interface ValueOfOne {
  readonly rep: number;
  readonly which: 'first' | 'second';
  readonly value: number;
  readonly uncertainty: number;
}

const COLOURS = { first: 'var(--left)', second: 'var(--right)' } as const;
const SHAPES = { first: 'circle', second: 'square' } as const;
/** Reps of the same number stand beside one another instead of on top. */
const APART = { first: -0.14, second: 0.14 } as const;

/** Two sets rep by rep: circles are the first, squares the second. */
export function firstAgainstSecondChart(
  title: string,
  unit: string,
  values: readonly ValueOfOne[],
  ariaDescription: string,
): Markup {
  const last = Math.max(1, ...values.map((value) => value.rep));
  const step = Math.ceil(last / 12);
  const least = Math.min(...values.map(({ value, uncertainty }) => value - uncertainty));
  const most = Math.max(...values.map(({ value, uncertainty }) => value + uncertainty));
  const room = (most - least || 1) * 0.08;
  const place = (value: ValueOfOne) => value.rep + APART[value.which];
  return drawPlot({
    width: 440,
    height: 220,
    marginLeft: 40,
    marginRight: 16,
    marginTop: 30,
    marginBottom: 34,
    ariaLabel: title,
    ariaDescription,
    x: {
      domain: [0.4, last + 0.6],
      ticks: Array.from({ length: last }, (_, index) => index + 1).filter((rep) => (rep - 1) % step === 0),
      tickFormat: 'd',
      label: 'rep',
      labelArrow: 'none',
    },
    y: {
      domain: [Math.max(0, least - room), most + room],
      nice: true,
      ticks: 5,
      label: unit,
      labelArrow: 'none',
      grid: true,
    },
    marks: [
      Plot.ruleX(values, {
        x: place,
        y1: (value: ValueOfOne) => value.value - value.uncertainty,
        y2: (value: ValueOfOne) => value.value + value.uncertainty,
        stroke: (value: ValueOfOne) => COLOURS[value.which],
        strokeWidth: 1.6,
      }),
      Plot.dot(values, {
        x: place,
        y: 'value',
        r: 4.6,
        symbol: (value: ValueOfOne) => SHAPES[value.which],
        fill: (value: ValueOfOne) => (value.which === 'first' ? COLOURS.first : 'var(--card)'),
        stroke: (value: ValueOfOne) => COLOURS[value.which],
        strokeWidth: 1.8,
      }),
    ],
  });
}
