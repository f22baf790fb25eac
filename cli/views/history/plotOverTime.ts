import type { Point } from '../../history/trends.js';
import { dayText } from './days.js';

const WIDTH = 640;
const HEIGHT = 200;
const LEFT = 64;
const BOTTOM = 28;
const TOP = 12;
const RIGHT = 12;

/** Values over time with their ± as bars: a picture for a page, drawn in the colour of its text. */
export function plotOverTime(
  points: readonly Point[],
  name: string,
  text: (value: number) => string,
): string {
  const times = points.map((point) => Date.parse(point.instant));
  const [first, last] = [times[0]!, times.at(-1)!];
  const least = Math.min(...points.map(({ value, uncertainty }) => value - uncertainty));
  const most = Math.max(...points.map(({ value, uncertainty }) => value + uncertainty));
  const span = most - least || 1;
  const x = (time: number) =>
    last === first
      ? (LEFT + WIDTH - RIGHT) / 2
      : LEFT + ((time - first) / (last - first)) * (WIDTH - LEFT - RIGHT);
  const y = (value: number) => TOP + ((most - value) / span) * (HEIGHT - TOP - BOTTOM);
  const at = (value: number) => value.toFixed(1);
  const path = points.map((point, index) => `${at(x(times[index]!))},${at(y(point.value))}`).join(' ');
  const dots = points.map((point, index) => {
    const [cx, cy] = [at(x(times[index]!)), at(y(point.value))];
    const [low, high] = [at(y(point.value - point.uncertainty)), at(y(point.value + point.uncertainty))];
    return `<g><title>${dayText(point.instant)}: ${text(point.value)}</title><line x1="${cx}" x2="${cx}" y1="${low}" y2="${high}" stroke="currentColor" stroke-opacity="0.4" stroke-width="2"/><circle cx="${cx}" cy="${cy}" r="4" fill="currentColor"/></g>`;
  });
  const days = [dayText(points[0]!.instant), dayText(points.at(-1)!.instant)];
  return `<svg viewBox="0 0 ${WIDTH} ${HEIGHT}" role="img" aria-label="${name} over time, from ${text(points[0]!.value)} on ${days[0]} to ${text(points.at(-1)!.value)} on ${days[1]}">
<polyline points="${path}" fill="none" stroke="currentColor" stroke-opacity="0.5"/>
${dots.join('\n')}
<g fill="currentColor" font-size="12"><text x="0" y="${TOP + 8}">${text(most)}</text><text x="0" y="${HEIGHT - BOTTOM}">${text(least)}</text><text x="${LEFT}" y="${HEIGHT - 6}">${days[0]}</text><text x="${WIDTH - RIGHT}" y="${HEIGHT - 6}" text-anchor="end">${days[1]}</text></g>
</svg>`;
}
