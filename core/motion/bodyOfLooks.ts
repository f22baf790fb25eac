import { KEYPOINT_COUNT } from '../pose/keypoints.js';
import { figureOf, type Look, SEEN_SCORE } from '../pose/people.js';
import type { PictureSize } from '../pose/region.js';
import type { PoseTrack } from '../pose/track.js';
import type { Body } from './body.js';
import { torsoLengthPixels } from './segments.js';

/** Keypoints of the coarse model lie about this far off, as a share of the body's extent. */
const COARSE_ERROR = 0.02;

/**
 * The largest person of each look as a body: enough to tell the view and what is visible, too sparse for any motion.
 * Looks without anyone are left out.
 */
export function bodyOfLooks(looks: readonly Look[], picture: PictureSize): Body {
  const largest = looks.flatMap(({ seconds, people }) => {
    const figures = people.flatMap((points) => {
      const figure = figureOf(points);
      return figure === null ? [] : [{ seconds, points, extent: figure.extent }];
    });
    return figures.sort((a, b) => b.extent - a.extent).slice(0, 1);
  });
  const column = (part: number) =>
    Float32Array.from({ length: largest.length * KEYPOINT_COUNT }, (_, at) => {
      const { points } = largest[Math.floor(at / KEYPOINT_COUNT)]!;
      return points[(at % KEYPOINT_COUNT) * 3 + part]!;
    });
  const score = column(2);
  const seen = Uint8Array.from(score, (value) => (value >= SEEN_SCORE ? 1 : 0));
  const track: PoseTrack = {
    // The coarse model is no choice of the user's; nothing reads these two.
    model: 'movenet-lightning',
    quality: 'quick',
    ...picture,
    framesInFilm: looks.length,
    seconds: Float64Array.from(largest, ({ seconds }) => seconds),
    x: column(0),
    y: column(1),
    score,
    people: null,
  };
  return {
    ...track,
    frames: largest.length,
    seen,
    standardErrorPixels: Float32Array.from(
      seen,
      (_, at) => COARSE_ERROR * largest[Math.floor(at / KEYPOINT_COUNT)]!.extent,
    ),
    torsoPixels: torsoLengthPixels(track, seen),
    swappedShare: 0,
  };
}
