import * as Plot from '@observablehq/plot';
import { dayText } from '../../words/days.js';
import type { Markup } from '../layout/markup.js';
import { drawPlot } from './drawPlot.js';

/** One value of one day with the half width of its 95 % interval. */
export interface DatedValue {
  readonly at: Date;
  readonly value: number;
  readonly uncertainty: number;
}

export interface ValuesOverTime {
  readonly title: string;
  readonly unit: string;
  /** In order of time, at least one. */
  readonly values: readonly DatedValue[];
  /** What no value can exceed; null where there is no such limit. */
  readonly most: number | null;
  /** Values of the trend's line at the first day and the last; null draws none. */
  readonly trend: readonly [number, number] | null;
  readonly ariaDescription: string;
}

const WIDTH = 440;
const HEIGHT = 210;
const TICKS = 5;

/** Values over the weeks with their intervals, and a dashed line where they really move. */
export function valuesOverTimeChart(chart: ValuesOverTime): Markup {
  const { title, unit, values, trend, ariaDescription } = chart;
  const topOf = ({ value, uncertainty }: DatedValue) =>
    Math.min(value + uncertainty, chart.most ?? Number.POSITIVE_INFINITY);
  const [first, last] = [values[0]!.at, values.at(-1)!.at];
  const least = Math.min(...values.map(({ value, uncertainty }) => value - uncertainty));
  const most = Math.max(...values.map(topOf));
  const room = (most - least || 1) * 0.08;
  return drawPlot({
    width: WIDTH,
    height: HEIGHT,
    marginLeft: 44,
    marginRight: 26,
    marginTop: 28,
    marginBottom: 36,
    ariaLabel: title,
    ariaDescription,
    x: { type: 'time', domain: daysAround(first, last), ...ticksOf(values), label: null },
    y: {
      domain: [least - room, Math.min(most + room, chart.most ?? Number.POSITIVE_INFINITY)],
      nice: chart.most === null,
      ticks: TICKS,
      label: unit,
      labelArrow: 'none',
      grid: true,
    },
    marks: [
      ...(trend === null
        ? []
        : [
            Plot.link([trend], {
              x1: () => first,
              x2: () => last,
              y1: (ends: readonly [number, number]) => ends[0],
              y2: (ends: readonly [number, number]) => ends[1],
              stroke: 'var(--baseline)',
              strokeWidth: 1.6,
              strokeDasharray: '6 4',
            }),
          ]),
      Plot.ruleX(values, {
        x: 'at',
        y1: (value: DatedValue) => value.value - value.uncertainty,
        y2: topOf,
        stroke: 'var(--accent)',
        strokeOpacity: 0.6,
        strokeWidth: 1.8,
      }),
      Plot.dot(values, { x: 'at', y: 'value', r: 4.5, fill: 'var(--accent)' }),
    ],
  });
}

/** The days themselves where they are few: these would be written out to the second. */
function ticksOf(values: readonly DatedValue[]): Pick<Plot.ScaleOptions, 'ticks' | 'tickFormat'> {
  const days = new Map(values.map(({ at }) => [at.toDateString(), at]));
  if (days.size >= TICKS) return { ticks: TICKS };
  return { ticks: [...days.values()], tickFormat: (at: Date) => dayText(at.toISOString()) };
}

const DAY_MILLISECONDS = 86_400_000;

/** One day alone still needs a width. */
function daysAround(first: Date, last: Date): [Date, Date] {
  const room = Math.max(DAY_MILLISECONDS, (last.getTime() - first.getTime()) * 0.03);
  return [new Date(first.getTime() - room), new Date(last.getTime() + room)];
}
