import { type AssEvent, type Colour, placedShape, placedText, rectanglePath } from './assScript.js';
import type { Panel } from './panelPlaces.js';

/** A stretch of real time, seconds. */
export interface Moment {
  readonly fromSeconds: number;
  readonly toSeconds: number;
}

interface Line {
  readonly row: 'verdict' | 'rep' | 'phase';
  readonly side: 'left' | 'right';
  readonly colour: Colour;
  readonly bold?: boolean;
}

/** Draws on one panel. */
export interface PanelPen {
  text(moment: Moment, content: string, line: Line): AssEvent;
  /** A bar over `share` of its trough, 0 to 1. */
  bar(moment: Moment, share: number, colour: Colour, layer: number): AssEvent;
  backdrop(moment: Moment, colour: Colour): AssEvent;
}

/** Layers of the panel, over those of the figure. */
export const LAYER = { backdrop: 10, trough: 11, content: 12, verdict: 13 } as const;

/** Tops of the rows and of the bar, in letters from the top of the panel. */
const ROW_TOP = { verdict: 0.25, rep: 1.75, phase: 3.1 } as const;
const BAR_TOP = 4.75;
const BAR_BOTTOM = 5.15;

/** @param factor turns real time into film time, which the events are in. */
export function panelPen(panel: Panel, factor: number): PanelPen {
  const { left, right, top, bottom, fontSize } = panel;
  const inset = fontSize * 0.6;
  const event = (moment: Moment, layer: number, style: AssEvent['style'], content: string): AssEvent => ({
    layer,
    fromSeconds: moment.fromSeconds * factor,
    toSeconds: moment.toSeconds * factor,
    style,
    content,
  });
  return {
    text(moment, content, { row, side, colour, bold = false }) {
      const placed = placedText(content, {
        x: side === 'left' ? left + inset : right - inset,
        y: top + ROW_TOP[row] * fontSize,
        anchor: side === 'left' ? 7 : 9,
        size: fontSize * (row === 'phase' ? 1.15 : 1),
        colour,
        bold,
      });
      return event(moment, row === 'verdict' ? LAYER.verdict : LAYER.content, 'Text', placed);
    },
    bar(moment, share, colour, layer) {
      const end = left + inset + (right - left - 2 * inset) * share;
      const path = rectanglePath(left + inset, top + BAR_TOP * fontSize, end, top + BAR_BOTTOM * fontSize);
      return event(moment, layer, 'Shape', placedShape(path, colour));
    },
    backdrop: (moment, colour) =>
      event(
        moment,
        LAYER.backdrop,
        'Shape',
        placedShape(rectanglePath(left, top, right, bottom), colour, { opacity: 0.78 }),
      ),
  };
}
