import * as Plot from '@observablehq/plot';
import { parseHTML } from 'linkedom/worker';
import { type Markup, trusted } from '../layout/markup.js';

const { document: chartDocument } = parseHTML('<html><body></body></html>');

const BASE_STYLE = {
  background: 'transparent',
  fontFamily: 'inherit',
  fontSize: '12px',
  overflow: 'visible',
};

/**
 * Draws one chart to SVG text, without a browser. The picture is one image to a screen reader, told by
 * `ariaLabel` and `ariaDescription`; the numbers are read from the table that stands beside it.
 */
export function drawPlot(
  options: Plot.PlotOptions & { readonly ariaLabel: string; readonly ariaDescription: string },
  attributes: Readonly<Record<string, string>> = {},
): Markup {
  const element = Plot.plot({
    ...options,
    document: chartDocument as unknown as NonNullable<Plot.PlotOptions['document']>,
    style: { ...BASE_STYLE, ...(typeof options.style === 'object' ? options.style : {}) },
  });
  element.setAttribute('role', 'img');
  for (const [name, value] of Object.entries(attributes)) element.setAttribute(name, value);
  // A second copy of Plot's own style element in every chart would only repeat it: the page carries one.
  for (const style of element.querySelectorAll('style')) style.remove();
  // Marks inside one image need no names of their own.
  for (const mark of element.querySelectorAll('g[aria-label], g[aria-description]')) {
    mark.removeAttribute('aria-label');
    mark.removeAttribute('aria-description');
  }
  return trusted(element.outerHTML.replace(/(\d+\.\d{2})\d+/g, '$1'));
}
