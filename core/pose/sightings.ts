import { bodyDistance, type Figure, figureOf, type Look } from './people.js';

/** One person seen at one time. */
export interface Sighting {
  readonly seconds: number;
  readonly points: Float32Array;
  readonly figure: Figure;
}

/** One person followed through the film, sightings in order of time. */
export type Trail = readonly Sighting[];

/** A person not seen for longer than this starts a new trail. */
const LONGEST_GAP_SECONDS = 2.2;
/** How far a body may move between two looks half a second apart, in its own extents. */
const FARTHEST_STEP = 0.35;
/** How much its seen extent may change between two looks (a squat halves it over a second or two). */
const LARGEST_SCALE_CHANGE = 1.7;

/**
 * Links sightings of the same person over time: the closest pairs first, each sighting in one trail only.
 *
 * The result depends only on the looks, which must be in order of time.
 */
export function linkSightings(looks: readonly Look[]): readonly Trail[] {
  const trails: Sighting[][] = [];
  for (const look of looks) {
    const sightings = look.people.flatMap((points): Sighting[] => {
      const figure = figureOf(points);
      return figure === null ? [] : [{ seconds: look.seconds, points, figure }];
    });
    const pairs = trails.flatMap((trail, trailIndex) =>
      sightings.flatMap((sighting, sightingIndex) => {
        const cost = stepCost(trail, sighting);
        return cost === null ? [] : [{ cost, trailIndex, sightingIndex }];
      }),
    );
    pairs.sort((a, b) => a.cost - b.cost || a.trailIndex - b.trailIndex || a.sightingIndex - b.sightingIndex);
    const continued = new Set<number>();
    const placed = new Set<number>();
    for (const { trailIndex, sightingIndex } of pairs) {
      if (continued.has(trailIndex) || placed.has(sightingIndex)) continue;
      continued.add(trailIndex);
      placed.add(sightingIndex);
      trails[trailIndex]!.push(sightings[sightingIndex]!);
    }
    sightings.forEach((sighting, index) => {
      if (!placed.has(index)) trails.push([sighting]);
    });
  }
  return trails;
}

/** Cost of one step of a trail, or null where the sighting cannot be the same person. */
function stepCost(trail: Trail, next: Sighting): number | null {
  const last = trail.at(-1)!;
  const gap = next.seconds - last.seconds;
  if (gap <= 0 || gap > LONGEST_GAP_SECONDS) return null;
  const larger = Math.max(last.figure.extent, next.figure.extent);
  const scaleChange = larger / Math.min(last.figure.extent, next.figure.extent);
  if (scaleChange > LARGEST_SCALE_CHANGE) return null;
  // Where they stood or where they were heading: whoever walks past someone keeps walking.
  const distance = Math.min(
    bodyDistance(last.points, next.points, larger),
    bodyDistance(carriedOn(trail, next.seconds), next.points, larger),
  );
  // A longer gap allows a longer way, but not in proportion: people training stay where they are.
  if (distance > FARTHEST_STEP * Math.sqrt(Math.max(1, gap / 0.5))) return null;
  return distance + 0.3 * Math.log(scaleChange) + 0.05 * gap;
}

/** The last sighting moved on at the pace of the last two. */
function carriedOn(trail: Trail, seconds: number): Float32Array {
  const last = trail.at(-1)!;
  const before = trail.at(-2);
  if (before === undefined) return last.points;
  const share = (seconds - last.seconds) / (last.seconds - before.seconds);
  const right = (last.figure.centerX - before.figure.centerX) * share;
  const down = (last.figure.centerY - before.figure.centerY) * share;
  return last.points.map((value, at) => (at % 3 === 0 ? value + right : at % 3 === 1 ? value + down : value));
}
