import { extname } from 'node:path';

const FILM_ENDINGS = new Set(
  ['mp4', 'mov', 'm4v', 'mkv', 'webm', 'avi', '3gp', 'mts', 'mpg', 'mpeg', 'wmv'].map((name) => `.${name}`),
);

/** Whether a file in a folder is taken for a film, by its name. Hidden files are not: phones copy under such names. */
export function looksLikeFilm(name: string): boolean {
  return !name.startsWith('.') && FILM_ENDINGS.has(extname(name).toLowerCase());
}
