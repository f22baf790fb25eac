import * as Plot from '@observablehq/plot';
import { VERDICTS, type Verdict } from '../../words/verdicts.js';
import type { Markup } from '../layout/markup.js';
import { drawPlot } from './drawPlot.js';

/** One measured value of one rep with the half width of its 95 % interval. */
export interface RepValue {
  readonly rep: number;
  readonly value: number;
  readonly uncertainty: number;
  /** How it came out, told by the verdict's sign above the interval; null where nothing is wanted of it. */
  readonly verdict: Verdict | null;
}

/** A level the values are held against, drawn as a line with its name, with the band allowed around it. */
export interface Level {
  readonly value: number;
  readonly name: string;
  readonly band: readonly [number, number] | null;
  readonly dashed: boolean;
  /** Where the name goes, right of the line: a little above or below it. */
  readonly place: 'above' | 'below';
  /** The reps it holds for, first and last of them; all where absent. */
  readonly reps?: readonly [number, number];
}

export interface ValuesPerRep {
  readonly title: string;
  readonly unit: string;
  readonly values: readonly RepValue[];
  readonly levels: readonly Level[];
  readonly colour: string;
  readonly ariaDescription: string;
  /** Least top of the value axis. */
  readonly leastTop: number;
  /** Bottom of the value axis; 0 unless a zero says nothing. */
  readonly bottom?: number;
}

const WIDTH = 300;
const HEIGHT = 190;

/** From half a rep before its first to half a rep behind its last, or to the edge of the picture. */
function spanOf({ reps }: Level, last: number): { readonly from: number; readonly to: number } {
  const [first, final] = reps ?? [1, last];
  return { from: first === 1 ? 0.4 : first - 0.5, to: final === last ? last + 0.6 : final + 0.5 };
}

/** Values of the reps in order, with their intervals, against named levels. */
export function valuesPerRepChart(chart: ValuesPerRep): Markup {
  const { values, levels, colour } = chart;
  const top = Math.max(
    chart.leastTop,
    ...values.map((value) => value.value + value.uncertainty),
    ...levels.map((level) => level.band?.[1] ?? level.value),
  );
  const bottom = chart.bottom ?? 0;
  const last = Math.max(1, ...values.map((value) => value.rep));
  const step = Math.ceil(last / 12);
  return drawPlot({
    width: WIDTH,
    height: HEIGHT,
    marginLeft: 34,
    marginRight: 50,
    marginTop: 30,
    marginBottom: 34,
    ariaLabel: chart.title,
    ariaDescription: chart.ariaDescription,
    x: {
      domain: [0.4, last + 0.6],
      ticks: Array.from({ length: last }, (_, index) => index + 1).filter((rep) => (rep - 1) % step === 0),
      tickFormat: 'd',
      label: 'rep',
      labelArrow: 'none',
    },
    y: {
      domain: [bottom, top * 1.06],
      nice: true,
      ticks: 5,
      label: chart.unit,
      labelArrow: 'none',
      grid: true,
    },
    marks: [
      ...levels.flatMap((level) => levelMarks(level, last, bottom, colour)),
      ...valueMarks(values, bottom, colour),
    ],
  });
}

/** A level: the band allowed around it, its line, and its name at the right. */
function levelMarks(level: Level, last: number, bottom: number, colour: string): Plot.Markish[] {
  const { from, to } = spanOf(level, last);
  const { band } = level;
  return [
    ...(band === null
      ? []
      : [
          Plot.rect([band], {
            x1: from,
            x2: to,
            y1: Math.max(bottom, band[0]),
            y2: band[1],
            fill: colour,
            fillOpacity: 0.14,
          }),
        ]),
    Plot.ruleY([level.value], {
      x1: from,
      x2: to,
      stroke: 'var(--baseline)',
      strokeWidth: 1.3,
      ...(level.dashed ? { strokeDasharray: '5 4' } : {}),
    }),
    Plot.text([level.name], {
      x: last + 0.6,
      y: level.value,
      text: (name: string) => name,
      textAnchor: 'start',
      dx: 4,
      dy: level.place === 'above' ? -4 : 4,
      fontSize: 11,
      fill: 'var(--ink)',
      stroke: 'var(--card)',
      strokeWidth: 4,
    }),
  ];
}

/** The values: their intervals, a circle each, and the signs of their verdicts above. */
function valueMarks(values: readonly RepValue[], bottom: number, colour: string): Plot.Markish[] {
  return [
    Plot.ruleX(values, {
      x: 'rep',
      y1: (value: RepValue) => Math.max(bottom, value.value - value.uncertainty),
      y2: (value: RepValue) => value.value + value.uncertainty,
      stroke: colour,
      strokeWidth: 1.6,
    }),
    Plot.dot(values, { x: 'rep', y: 'value', r: 4.5, fill: colour }),
    Plot.text(values, {
      x: 'rep',
      y: (value: RepValue) => value.value + value.uncertainty,
      text: (value: RepValue) => (value.verdict === null ? '' : VERDICTS[value.verdict].sign),
      dy: -9,
      fontSize: 12,
      fontWeight: 650,
      fill: 'var(--ink)',
      stroke: 'var(--card)',
      strokeWidth: 3,
    }),
  ];
}
