import { describe, expect, test } from 'vitest';
import { movingPart } from '../../../core/pose/movingPart.js';
import { figureOf } from '../../../core/pose/people.js';
import type { Trail } from '../../../core/pose/sightings.js';
import { person } from './inventedPeople.js';

/** Seen twice a second; squats between two times, else standing still. */
function squatsBetween(from: number, to: number, lengthSeconds: number, period = 4): Trail {
  return Array.from({ length: lengthSeconds * 2 }, (_, index) => {
    const seconds = index / 2;
    const moves = seconds >= from && seconds <= to;
    const depth = moves ? 0.5 - 0.5 * Math.cos(((seconds - from) * 2 * Math.PI) / period) : 0;
    const points = person({ x: 200, feetY: 500, height: 400, depth });
    return { seconds, points, figure: figureOf(points)! };
  });
}

describe('the part of a film in which the lifter moves', () => {
  test('of ten minutes with one set in the middle: the set and ten seconds around it', () => {
    const part = movingPart(squatsBetween(300, 340, 600), 0, 600)!;
    expect(part.fromSeconds).toBeGreaterThan(285);
    expect(part.fromSeconds).toBeLessThanOrEqual(290);
    expect(part.toSeconds).toBeGreaterThanOrEqual(350);
    expect(part.toSeconds).toBeLessThan(355);
  });

  test('several sets: from the first to the last', () => {
    const trail = [...squatsBetween(100, 140, 300), ...squatsBetween(200, 240, 300).map(later(300))];
    const part = movingPart(trail, 0, 600)!;
    expect(part.fromSeconds).toBeLessThanOrEqual(90);
    expect(part.toSeconds).toBeGreaterThanOrEqual(550);
  });

  test('an arm alone counts as movement', () => {
    const trail = squatsBetween(0, 0, 400).map((sighting) => {
      const points = Float32Array.from(sighting.points);
      // The left wrist (COCO order: 9) goes up and down by a quarter of the body.
      if (sighting.seconds > 200 && sighting.seconds < 230)
        points[9 * 3 + 1]! -= 50 * (1 + Math.sin(sighting.seconds));
      return { ...sighting, points };
    });
    const part = movingPart(trail, 0, 400)!;
    expect(part.fromSeconds).toBeGreaterThan(180);
    expect(part.toSeconds).toBeLessThan(245);
  });

  test.each([
    ['a film of usual length', squatsBetween(50, 60, 110), 110],
    ['a film of unknown length', squatsBetween(300, 340, 600), null],
    ['movement all the way', squatsBetween(0, 600, 600), 600],
    ['nothing that moves', squatsBetween(0, 0, 600), 600],
    ['nobody', [], 600],
  ])('%s is looked at whole', (_name, trail, lengthSeconds) => {
    expect(movingPart(trail, 0, lengthSeconds)).toBeNull();
  });

  test('quick reps are movement too, whatever their rhythm', () => {
    for (const period of [0.8, 1, 1.5, 2, 3]) {
      const trail = squatsBetween(300, 340, 600, period);
      expect(movingPart(trail, 0, 600)!.toSeconds).toBeGreaterThan(345);
    }
  });

  test('stays within the part that was asked for', () => {
    const part = movingPart(squatsBetween(305, 340, 600), 300, 300)!;
    expect(part.fromSeconds).toBe(300);
    expect(part.toSeconds).toBeLessThan(355);
  });
});

function later(seconds: number) {
  return (sighting: Trail[number]) => ({ ...sighting, seconds: sighting.seconds + seconds });
}
