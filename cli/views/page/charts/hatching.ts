import type * as Plot from '@observablehq/plot';
import type { PhaseKind } from '../../words/phaseWords.js';

const SPACING = 6;

/** A rectangle in pixels, y downwards. */
export interface Box {
  readonly left: number;
  readonly right: number;
  readonly top: number;
  readonly bottom: number;
}

/** Slanted lines at equal spacing, cut off at the edges of the box. */
function slanted({ left, right, top, bottom }: Box, falling: boolean): string {
  const height = bottom - top;
  const lines: string[] = [];
  for (let start = left - height + SPACING / 2; start < right; start += SPACING) {
    const from = Math.max(left, start);
    const to = Math.min(right, start + height);
    if (to - from < 0.5) continue;
    const at = (x: number) => (falling ? top + (x - start) : bottom - (x - start));
    lines.push(`M${from.toFixed(1)},${at(from).toFixed(1)}L${to.toFixed(1)},${at(to).toFixed(1)}`);
  }
  return lines.join('');
}

function level({ left, right, top, bottom }: Box): string {
  const lines: string[] = [];
  for (let y = top + 2; y < bottom; y += 4) {
    lines.push(`M${left.toFixed(1)},${y.toFixed(1)}H${right.toFixed(1)}`);
  }
  return lines.join('');
}

function dotted({ left, right, top, bottom }: Box): string {
  const dots: string[] = [];
  for (let y = top + 2.5; y < bottom - 1; y += 4.5) {
    for (let x = left + 2; x < right - 1.5; x += 4.5) dots.push(`M${x.toFixed(1)},${y.toFixed(1)}h1.8`);
  }
  return dots.join('');
}

/**
 * The lines that mark a phase inside a box, as the data of an SVG path: falling for the eccentric, rising
 * for the concentric, level lines for the stretched hold, dots for the contracted one. Drawn as lines and
 * not as an SVG pattern, because printing turns each use of a pattern into a large picture.
 */
export function hatching(kind: PhaseKind, box: Box): string {
  switch (kind) {
    case 'eccentric':
      return slanted(box, true);
    case 'concentric':
      return slanted(box, false);
    case 'stretched-hold':
      return level(box);
    case 'contracted-hold':
      return dotted(box);
  }
}

/** A box in the units of the chart's axes. */
export interface HatchedBox {
  readonly kind: PhaseKind;
  readonly x1: number;
  readonly x2: number;
  readonly y1: number;
  readonly y2: number;
}

type Scale = (value: number) => number;

/** A mark that draws boxes of phases: their tint, their lines, their outline. */
export function hatchedBoxes(boxes: readonly HatchedBox[]): Plot.RenderFunction {
  return (_index, scales, _values, _dimensions, context) => {
    const x = scales.x as unknown as Scale;
    const y = scales.y as unknown as Scale;
    const { document } = context;
    const make = (name: string, attributes: Readonly<Record<string, string>>) => {
      const element = document.createElementNS('http://www.w3.org/2000/svg', name);
      for (const [key, value] of Object.entries(attributes)) element.setAttribute(key, value);
      return element;
    };
    const group = make('g', { fill: 'none' });
    for (const { kind, x1, x2, y1, y2 } of boxes) {
      const box: Box = {
        left: Math.min(x(x1), x(x2)),
        right: Math.max(x(x1), x(x2)),
        top: Math.min(y(y1), y(y2)),
        bottom: Math.max(y(y1), y(y2)),
      };
      const colour = `var(--${kind})`;
      group.append(
        make('rect', {
          x: box.left.toFixed(1),
          y: box.top.toFixed(1),
          width: Math.max(0, box.right - box.left).toFixed(1),
          height: (box.bottom - box.top).toFixed(1),
          fill: colour,
          'fill-opacity': '0.25',
          stroke: 'var(--card)',
        }),
        make('path', { d: hatching(kind, box), stroke: colour, 'stroke-width': '1.5' }),
      );
    }
    return group as unknown as SVGElement;
  };
}
