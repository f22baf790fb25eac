import { median } from 'simple-statistics';
import { Failure } from '../failure.js';
import { bodyDistance, type Look } from './people.js';
import type { PictureSize } from './region.js';
import { rhythmOf } from './rhythm.js';
import { linkSightings, type Sighting, type Trail } from './sightings.js';

/** A point of the picture at a time, given by the user to say who the lifter is. */
export interface LifterPointer {
  /** Fraction of the picture's width from the left, 0 to 1. */
  readonly x: number;
  /** Fraction of the picture's height from the top, 0 to 1. */
  readonly y: number;
  readonly seconds: number;
}

/** Who is measured. */
export interface Lifter {
  /** Sightings of the lifter in order of time; empty where nobody was seen. */
  readonly sightings: Trail;
  /** How many people were seen at once, median over the looks. */
  readonly medianCount: number;
  /** Whether somebody else could as well be the lifter. */
  readonly doubtful: boolean;
}

/** Somebody whose claim reaches this share of the lifter's makes the choice doubtful. */
const DOUBTFUL_SHARE = 0.6;
/** A movement this large (standard deviation, in body extents) counts in full. */
const FULL_AMPLITUDE = 0.12;
/** A later trail continues the lifter's when it starts this close to where that one ended, in extents. */
const REJOIN_DISTANCE = 0.5;
const REJOIN_SCALE = 1.5;

/**
 * Chooses the lifter: who is seen longest, moves in rhythm, is large and in the middle; or whoever the user
 * points at. Sightings before and after others passed in front are joined again.
 *
 * @throws Failure 'usage' where the pointer meets nobody.
 */
export function chooseLifter(
  looks: readonly Look[],
  picture: PictureSize,
  pointer: LifterPointer | null = null,
): Lifter {
  const trails = linkSightings(looks);
  const counts = looks.map((look) => look.people.length);
  const medianCount = counts.length === 0 ? 0 : Math.round(median(counts));
  if (pointer !== null) {
    const pointed = trailAt(trails, picture, pointer);
    return { sightings: rejoin(pointed, trails), medianCount, doubtful: false };
  }
  const largest = Math.max(1, ...trails.map(typicalExtent));
  const claims = trails
    .map((trail) => rejoin(trail, trails))
    .map((trail) => ({ trail, claim: claimOf(trail, looks.length, largest, picture) }))
    .sort((a, b) => b.claim - a.claim);
  const best = claims[0];
  if (best === undefined) return { sightings: [], medianCount, doubtful: false };
  const members = new Set(best.trail);
  const rival = claims.find(({ trail }) => !trail.some((sighting) => members.has(sighting)));
  return {
    sightings: best.trail,
    medianCount,
    doubtful: rival !== undefined && rival.claim > DOUBTFUL_SHARE * best.claim,
  };
}

function typicalExtent(trail: Trail): number {
  return median(trail.map((sighting) => sighting.figure.extent));
}

/** How strongly a trail claims to be the lifter: a product of shares, 0 to about 1. */
function claimOf(trail: Trail, looks: number, largest: number, picture: PictureSize): number {
  const presence = trail.length / looks;
  const size = typicalExtent(trail) / largest;
  const middle = median(trail.map((sighting) => sighting.figure.centerX));
  const offCenter = Math.min(1, Math.abs(middle / picture.width - 0.5) * 2);
  const { amplitude, repetition } = rhythmOf(trail);
  const movement = Math.min(1, amplitude / FULL_AMPLITUDE) * (0.4 + 0.6 * repetition);
  return presence * size * (1 - 0.5 * offCenter) * (0.15 + 0.85 * movement);
}

/** The trail of whoever is nearest the pointer, within reach of their body, at about that time. */
function trailAt(trails: readonly Trail[], picture: PictureSize, pointer: LifterPointer): Trail {
  const x = pointer.x * picture.width;
  const y = pointer.y * picture.height;
  let best: { readonly trail: Trail; readonly cost: number } | null = null;
  for (const trail of trails) {
    for (const { seconds, figure } of trail) {
      const away = Math.abs(seconds - pointer.seconds);
      const distance = Math.hypot(figure.centerX - x, figure.centerY - y) / figure.extent;
      if (away > 1.5 || distance > 0.75) continue;
      const cost = distance + 0.2 * away;
      if (best === null || cost < best.cost) best = { trail, cost };
    }
  }
  if (best === null) {
    throw new Failure(
      'usage',
      `Nobody was seen near ${pointer.x},${pointer.y} at ${pointer.seconds} s.`,
      'Point at the middle of the lifter: x and y as fractions of the picture, then @ and the film time in seconds.',
    );
  }
  return best.trail;
}

/** Joins the trails before and after that continue this one where it broke off. */
function rejoin(trail: Trail, trails: readonly Trail[]): Trail {
  let joined: Sighting[] = [...trail];
  for (;;) {
    const first = joined[0]!;
    const last = joined.at(-1)!;
    const later = nearest(trails, (other) => stepBetween(last, other[0]!));
    if (later !== null) joined = [...joined, ...later];
    const earlier = nearest(trails, (other) => stepBetween(other.at(-1)!, first));
    if (earlier !== null) joined = [...earlier, ...joined];
    if (later === null && earlier === null) return joined;
  }
}

function nearest(trails: readonly Trail[], cost: (trail: Trail) => number | null): Trail | null {
  let best: { readonly trail: Trail; readonly cost: number } | null = null;
  for (const trail of trails) {
    const value = cost(trail);
    if (value !== null && (best === null || value < best.cost)) best = { trail, cost: value };
  }
  return best?.trail ?? null;
}

function stepBetween(before: Sighting, after: Sighting): number | null {
  if (after.seconds <= before.seconds) return null;
  const larger = Math.max(before.figure.extent, after.figure.extent);
  if (larger / Math.min(before.figure.extent, after.figure.extent) > REJOIN_SCALE) return null;
  const distance = bodyDistance(before.points, after.points, larger);
  return distance > REJOIN_DISTANCE ? null : distance + 0.02 * (after.seconds - before.seconds);
}
