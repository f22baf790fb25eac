import { describe, expect, test } from 'vitest';
import { Failure } from '../../../core/failure.js';
import { chooseLifter } from '../../../core/pose/lifter.js';
import { looksAt, person, squatting } from './inventedPeople.js';

const PICTURE = { width: 1000, height: 800 };
const lifterAt = (seconds: number) =>
  person({ x: 480, feetY: 700, height: 500, depth: squatting(seconds, 4) });
const positions = (sightings: readonly { readonly figure: { readonly centerX: number } }[]) =>
  sightings.map((sighting) => sighting.figure.centerX);

describe('choice of the lifter', () => {
  test('nobody: no sightings', () => {
    expect(
      chooseLifter(
        looksAt(10, () => []),
        PICTURE,
      ),
    ).toEqual({
      sightings: [],
      medianCount: 0,
      doubtful: false,
    });
  });

  test('somebody who stands and watches, larger and nearer, is not taken', () => {
    const looks = looksAt(30, (seconds) => [person({ x: 800, feetY: 780, height: 650 }), lifterAt(seconds)]);
    const lifter = chooseLifter(looks, PICTURE);
    expect(lifter.sightings).toHaveLength(looks.length);
    for (const x of positions(lifter.sightings)) expect(x).toBeCloseTo(480, 0);
    expect(lifter.medianCount).toBe(2);
    expect(lifter.doubtful).toBe(false);
  });

  test('a passer-by who hides the lifter for a second breaks nothing', () => {
    const looks = looksAt(30, (seconds) => {
      const walking = person({ x: (seconds - 12) * 300, feetY: 760, height: 600 });
      if (seconds < 12 || seconds > 15.5) return [lifterAt(seconds)];
      const hidden = Math.abs((seconds - 12) * 300 - 480) < 160;
      return hidden ? [walking] : [walking, lifterAt(seconds)];
    });
    const lifter = chooseLifter(looks, PICTURE);
    expect(lifter.sightings.length).toBeGreaterThanOrEqual(looks.length - 3);
    for (const x of positions(lifter.sightings)) expect(x).toBeCloseTo(480, 0);
    expect(lifter.doubtful).toBe(false);
  });

  test('somebody in step beside is never mixed in, and the choice is called doubtful', () => {
    const looks = looksAt(30, (seconds) => {
      const depth = squatting(seconds, 4);
      const neighbour = person({ x: 760, feetY: 690, height: 480, depth });
      // The two change places in the list, as a detector's answers do.
      const both = [lifterAt(seconds), neighbour];
      return seconds % 1 === 0 ? both : both.reverse();
    });
    const lifter = chooseLifter(looks, PICTURE);
    expect(lifter.sightings).toHaveLength(looks.length);
    for (const x of positions(lifter.sightings)) expect(x).toBeCloseTo(480, 0);
    expect(lifter.doubtful).toBe(true);
  });

  test('somebody else who stands a body’s width off half a second later is not the lifter gone on', () => {
    const looks = looksAt(30, (seconds) => [
      seconds <= 20
        ? lifterAt(seconds)
        : person({ x: 480 + 0.6 * 500, feetY: 700, height: 500, depth: squatting(seconds, 4) }),
    ]);
    const lifter = chooseLifter(looks, PICTURE);
    expect(lifter.sightings.at(-1)!.seconds).toBe(20);
    for (const x of positions(lifter.sightings)) expect(x).toBeCloseTo(480, 0);
  });

  test('the lifter goes out of sight for ten seconds and comes back', () => {
    const looks = looksAt(40, (seconds) => {
      const watcher = person({ x: 150, feetY: 600, height: 400 });
      return seconds > 15 && seconds < 25 ? [watcher] : [watcher, lifterAt(seconds)];
    });
    const lifter = chooseLifter(looks, PICTURE);
    for (const x of positions(lifter.sightings)) expect(x).toBeCloseTo(480, 0);
    expect(lifter.sightings.at(-1)!.seconds).toBe(40);
  });

  test('a pointer decides', () => {
    const looks = looksAt(20, (seconds) => [lifterAt(seconds), person({ x: 800, feetY: 700, height: 400 })]);
    const lifter = chooseLifter(looks, PICTURE, { x: 0.79, y: 0.6, seconds: 5 });
    for (const x of positions(lifter.sightings)) expect(x).toBeCloseTo(800, 0);
    expect(lifter.doubtful).toBe(false);
  });

  test('a pointer that meets nobody is a fault of usage', () => {
    const looks = looksAt(20, (seconds) => [lifterAt(seconds)]);
    expect(() => chooseLifter(looks, PICTURE, { x: 0.02, y: 0.1, seconds: 5 })).toThrow(Failure);
  });
});
