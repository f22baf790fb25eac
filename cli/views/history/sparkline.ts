import { median } from 'simple-statistics';

const BARS = ['▁', '▂', '▃', '▄', '▅', '▆', '▇', '█'] as const;

/**
 * A small line of bars, lowest to highest; more values than `width` are gathered into medians.
 *
 * @param values in order of time, at least one.
 */
export function sparkline(values: readonly number[], width: number): string {
  const shown = gathered(values, width);
  const least = Math.min(...shown);
  const span = Math.max(...shown) - least;
  return shown
    .map((value) => BARS[span === 0 ? 3 : Math.round(((value - least) / span) * (BARS.length - 1))]!)
    .join('');
}

function gathered(values: readonly number[], width: number): readonly number[] {
  if (values.length <= width) return values;
  return Array.from({ length: width }, (_, index) => {
    const from = Math.floor((index * values.length) / width);
    const to = Math.floor(((index + 1) * values.length) / width);
    return median(values.slice(from, to));
  });
}
