import { describe, expect, test } from 'vitest';
import { parsePointInFilm } from '../../../cli/options/values.js';
import { lifterPointer, nobodyThere } from '../../../cli/pipeline/lifterPointer.js';
import type { FilmFacts } from '../../../core/media/film.js';

const film = { width: 480, height: 640 } as FilmFacts;
const point = (x: number, y: number) => lifterPointer({ x, y, seconds: 5, asGiven: `${x},${y}@5` }, film);

describe('who lifts, by a point', () => {
  test.each([
    ['fractions', 0.5, 0.25, 0.5, 0.25],
    ['fractions at the corners', 0, 1, 0, 1],
    ['pixels', 240, 160, 0.5, 0.25],
    ['pixels at the border', 480, 640, 1, 1],
    // One number above 1 makes both of them pixels.
    ['pixels in the first column', 0.5, 320, 0.5 / 480, 0.5],
  ])('%s', (_name, x, y, expectedX, expectedY) => {
    expect(point(x, y)).toEqual({ x: expectedX, y: expectedY, seconds: 5 });
  });

  test.each([
    [481, 10],
    [10, 641],
  ])('%i,%i lies outside', (x, y) => {
    expect(() => point(x, y)).toThrow(`--lifter ${x},${y}@5 points outside the picture of 480 × 640 pixels`);
  });

  test.each(['240,310@5', '48,32@0', '0.5,0.6@0:05'])('%s at nobody is repeated as it was given', (text) => {
    const { kind, message } = nobodyThere(parsePointInFilm(text), film);
    expect(kind).toBe('usage');
    expect(message).toBe(`--lifter ${text} points at nobody.`);
  });
});
