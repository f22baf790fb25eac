import { type Markup, trusted } from './markup.js';

/** Fill of a phase: its colour under its own pattern, so that it reads in print and without colour. */
export function patternFill(kind: string): string {
  return `url(#pattern-${kind})`;
}

function pattern(kind: string, size: number, marks: string): string {
  return `<pattern id="pattern-${kind}" width="${size}" height="${size}" patternUnits="userSpaceOnUse">
<rect width="${size}" height="${size}" fill="var(--${kind})" fill-opacity="0.28"/>
<g stroke="var(--${kind})" fill="var(--${kind})" stroke-width="1.5">${marks}</g></pattern>`;
}

/**
 * The patterns of the four phases, once a page. Lines fall for the eccentric and rise for the concentric;
 * the holds are level: lines at the stretched end, dots at the contracted end.
 */
export const PATTERN_DEFINITIONS: Markup =
  trusted(`<svg class="definitions" width="0" height="0" aria-hidden="true"><defs>
${pattern('eccentric', 8, '<path d="M-2,-2L10,10M-2,6L2,10M6,-2L10,2"/>')}
${pattern('concentric', 8, '<path d="M-2,10L10,-2M-2,2L2,-2M6,10L10,6"/>')}
${pattern('stretched-hold', 6, '<path d="M0,3H6"/>')}
${pattern('contracted-hold', 6, '<circle cx="3" cy="3" r="1.1" stroke="none"/>')}
</defs></svg>`);
