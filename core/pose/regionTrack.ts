import { type PictureSize, type Region, squareAroundBody, wholePicture, withinPicture } from './region.js';
import type { Trail } from './sightings.js';

/** Where to look for the lifter at every time of a film. */
export type RegionTrack = (seconds: number) => Region;

/** The region at a time holds the body as it was within this span before and after. */
const HELD_SECONDS = 1.3;

/**
 * The region in which each frame is cut out: a square around the lifter's sightings of about a second before and
 * after, smoothed and interpolated. A frame's region depends on the sightings only, never on what was measured in
 * other frames. Unlike MoveNet's rule for one frame it does not snap to the whole picture for large bodies, which
 * would shift every keypoint by a little in the middle of a movement.
 */
export function trackRegions(lifter: Trail, picture: PictureSize): RegionTrack {
  if (lifter.length === 0) return () => wholePicture(picture);
  const held = lifter.map(({ seconds }) =>
    squareAroundBody(near(lifter, seconds).map(({ points }) => points)),
  );
  const knots = lifter.map((sighting) => {
    const weights = lifter.map((other) =>
      Math.max(0, 1 - Math.abs(other.seconds - sighting.seconds) / HELD_SECONDS),
    );
    const total = weights.reduce((sum, weight) => sum + weight, 0);
    const mean = (value: (index: number) => number) =>
      weights.reduce((sum, weight, index) => (weight === 0 ? sum : sum + weight * value(index)), 0) / total;
    return {
      seconds: sighting.seconds,
      x: mean((index) => held[index]!.x),
      y: mean((index) => held[index]!.y),
      half: mean((index) => held[index]!.half),
    };
  });
  return (seconds) => {
    const after = knots.findIndex((knot) => knot.seconds >= seconds);
    const next = after < 0 ? knots.length - 1 : after;
    const previous = Math.max(0, after < 0 ? next : next - 1);
    const from = knots[previous]!;
    const to = knots[next]!;
    const span = to.seconds - from.seconds;
    const share = span > 0 ? Math.min(1, Math.max(0, (seconds - from.seconds) / span)) : 0;
    const between = (a: number, b: number) => a + share * (b - a);
    const [x, y, half] = [between(from.x, to.x), between(from.y, to.y), between(from.half, to.half)];
    return withinPicture({ x, y, half }, picture);
  };
}

function near(lifter: Trail, seconds: number): Trail {
  return lifter.filter((sighting) => Math.abs(sighting.seconds - seconds) <= HELD_SECONDS + 1e-9);
}
