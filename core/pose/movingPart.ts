import { KEYPOINT_COUNT } from './keypoints.js';
import { SEEN_SCORE } from './people.js';
import type { Sighting, Trail } from './sightings.js';

/** A part of a film, film seconds. */
export interface FilmPart {
  readonly fromSeconds: number;
  readonly toSeconds: number;
}

/** A film up to this long is looked at whole: leaving a part out would save little. */
const SHORTEST_CUT_FILM_SECONDS = 120;
/** Kept before the first and after the last movement: the stillness there belongs to the answer. */
const MARGIN_SECONDS = 10;
/** A keypoint that goes this share of the body's extent moves; noise that does so keeps more of the film, not less. */
const MOVEMENT = 0.08;
/** Each sighting is held against those of the next two seconds, in which even a slow rep gets somewhere. */
const LATER_SIGHTINGS = 4;

/**
 * The part of a long film from shortly before the lifter first moves to shortly after the last time; null where
 * that is the whole film, or where nothing is seen to move (the film then has to be looked at whole to say so).
 *
 * @param lifter where they were seen about twice a second, film seconds.
 * @param startSeconds first moment of what is looked at.
 * @param lengthSeconds its length; null where unknown.
 */
export function movingPart(
  lifter: Trail,
  startSeconds: number,
  lengthSeconds: number | null,
): FilmPart | null {
  if (lengthSeconds === null || lengthSeconds < SHORTEST_CUT_FILM_SECONDS) return null;
  const moving = lifter.flatMap((sighting, index) =>
    lifter
      .slice(index + 1, index + 1 + LATER_SIGHTINGS)
      .filter((later) => farthestMove(sighting, later) > MOVEMENT)
      .flatMap((later) => [sighting.seconds, later.seconds]),
  );
  if (moving.length === 0) return null;
  const fromSeconds = Math.max(
    startSeconds,
    moving.reduce((least, one) => Math.min(least, one)) - MARGIN_SECONDS,
  );
  const toSeconds = Math.min(
    startSeconds + lengthSeconds,
    moving.reduce((most, one) => Math.max(most, one)) + MARGIN_SECONDS,
  );
  const wholeFilm = fromSeconds <= startSeconds && toSeconds >= startSeconds + lengthSeconds;
  return wholeFilm ? null : { fromSeconds, toSeconds };
}

/** How far the keypoint that moved most went, among those seen both times, in body extents. */
function farthestMove(one: Sighting, other: Sighting): number {
  const extent = Math.max(one.figure.extent, other.figure.extent);
  let farthest = 0;
  for (let at = 0; at < KEYPOINT_COUNT * 3; at += 3) {
    if (one.points[at + 2]! < SEEN_SCORE || other.points[at + 2]! < SEEN_SCORE) continue;
    const [across, down] = [one.points[at]! - other.points[at]!, one.points[at + 1]! - other.points[at + 1]!];
    farthest = Math.max(farthest, Math.hypot(across, down) / extent);
  }
  return farthest;
}
