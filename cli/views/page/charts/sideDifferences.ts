import * as Plot from '@observablehq/plot';
import type { Markup } from '../layout/markup.js';
import { drawPlot } from './drawPlot.js';

/** Left minus right of one measure, as a share of the mean of both sides. */
export interface SideDifference {
  readonly name: string;
  readonly share: number;
  readonly interval: readonly [number, number];
  readonly different: boolean;
}

/** What the two ends of the axis mean, and the axis itself. */
export interface DifferenceWords {
  readonly title: string;
  readonly axis: string;
  readonly less: string;
  readonly more: string;
}

const LEFT_AGAINST_RIGHT: DifferenceWords = {
  title: 'Left against right',
  axis: 'left minus right, % of their mean',
  less: 'less on the left',
  more: 'more on the left',
};

/** Differences between two sides, or two sets, with their 95 % intervals; zero stands in the middle. */
export function sideDifferencesChart(
  differences: readonly SideDifference[],
  ariaDescription: string,
  words: DifferenceWords = LEFT_AGAINST_RIGHT,
): Markup {
  const widest = Math.max(0.1, ...differences.flatMap(({ interval }) => interval.map(Math.abs)));
  const reach = Math.ceil(widest * 10) * 10;
  return drawPlot({
    width: 380,
    height: differences.length * 34 + 78,
    marginLeft: 96,
    marginRight: 14,
    marginTop: 34,
    marginBottom: 36,
    ariaLabel: words.title,
    ariaDescription,
    x: {
      domain: [-reach, reach],
      label: words.axis,
      labelAnchor: 'center',
      labelArrow: 'none',
      tickFormat: (tick: number) => String(tick).replace('-', '\u2212'),
      grid: true,
    },
    y: { domain: differences.map(({ name }) => name), label: null, padding: 0.2, tickSize: 0 },
    marks: [
      Plot.ruleX([0], { stroke: 'var(--baseline)', strokeWidth: 1.4 }),
      Plot.text([`← ${words.less}`], {
        frameAnchor: 'top-left',
        dy: -16,
        fill: 'var(--quiet)',
        fontSize: 11,
      }),
      Plot.text([`${words.more} →`], {
        frameAnchor: 'top-right',
        dy: -16,
        fill: 'var(--quiet)',
        fontSize: 11,
      }),
      Plot.ruleY(differences, {
        y: 'name',
        x1: (difference: SideDifference) => difference.interval[0] * 100,
        x2: (difference: SideDifference) => difference.interval[1] * 100,
        stroke: 'var(--accent)',
        strokeWidth: 2.4,
      }),
      Plot.dot(differences, {
        y: 'name',
        x: (difference: SideDifference) => difference.share * 100,
        r: 6,
        stroke: 'var(--accent)',
        strokeWidth: 2,
        fill: (difference: SideDifference) => (difference.different ? 'var(--accent)' : 'var(--card)'),
      }),
    ],
  });
}
