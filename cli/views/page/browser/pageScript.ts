import { drawFigure } from './drawFigure.js';
import { followTime } from './followTime.js';
import { jumpAndKeys } from './jumpAndKeys.js';
import { playFilm } from './playFilm.js';

/**
 * The script of a page with a player. Each part is a function that needs nothing from outside itself but
 * the page, so that its own compiled text can be placed there; the parts speak through events. The clock
 * starts last, when all others listen.
 */
export function playerScript(): string {
  return [drawFigure, followTime, jumpAndKeys, playFilm].map((part) => `(${part.toString()})();`).join('\n');
}
