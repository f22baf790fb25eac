import { Failure } from '../../core/failure.js';
import type { FilmFacts } from '../../core/media/film.js';
import type { LifterPointer } from '../../core/pose/lifter.js';
import type { PointInFilm } from '../options/values.js';

/**
 * Turns the point the user gave into fractions of the picture. Two numbers from 0 to 1 are fractions already, from
 * the top left; others are pixels of the upright picture. (Nobody stands in the first pixel of a corner, so the two
 * can't be confused.)
 *
 * @throws Failure (usage) where the point lies outside the picture.
 */
export function lifterPointer(point: PointInFilm, { width, height }: FilmFacts): LifterPointer {
  const { x, y, seconds } = point;
  if (x <= 1 && y <= 1) return { x, y, seconds };
  if (x <= width && y <= height) return { x: x / width, y: y / height, seconds };
  throw new Failure(
    'usage',
    `--lifter ${point.asGiven} points outside the picture of ${width} × ${height} pixels.`,
    'Give pixels of the upright picture, or fractions: 0.5,0.5 is its middle.',
  );
}

/** A point that meets nobody, repeated as the user gave it, in pixels or fractions. */
export function nobodyThere({ asGiven }: PointInFilm, { width, height }: FilmFacts): Failure {
  return new Failure(
    'usage',
    `--lifter ${asGiven} points at nobody.`,
    `Point at the middle of the lifter while they are seen: in pixels of the upright picture (${width} × ${height}) or as fractions of it (0.5,0.5 is its middle), then @ and the film time in seconds.`,
  );
}
