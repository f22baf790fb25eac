import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { CATALOGUE, findExercise } from '../../../analysis/exercises/catalogue.js';
import type { Exercise } from '../../../analysis/exercises/exercise.js';
import { findBouts } from '../../../analysis/segmentation/strokes.js';
import { type Body, readBody } from '../../../core/motion/body.js';
import { decodeTrack } from '../../../core/pose/trackFile.js';

/** Rendered films, read by the pose model, of somebody who never does a rep: the truth is that there is none. */
const FILMS = ['fidget', 'stand', 'talk', 'walk-about', 'wave'].map((activity) => `no-reps-${activity}`);

function repsIn(body: Body, exercise: Exercise): number {
  const film = { startSeconds: body.seconds[0]!, endSeconds: body.seconds[body.frames - 1]! };
  const bouts = findBouts(body, { exercise, film, plannedStartHoldSeconds: 0 });
  return bouts.reduce((sum, bout) => sum + bout.reps.length, 0);
}

const TRACKS = new URL('../../../fixtures/evaluation/tracks/', import.meta.url);
const bodyOf = (film: string) => readBody(decodeTrack(readFileSync(new URL(`${film}.track`, TRACKS))));

describe('somebody who never does a rep', () => {
  it.each(FILMS)('gives none in %s, whatever exercise is named', (film) => {
    const body = bodyOf(film);
    const invented = CATALOGUE.map((exercise) => [exercise.id, repsIn(body, exercise)]);
    expect(invented).toEqual(CATALOGUE.map(({ id }) => [id, 0]));
  });
});

describe('how the body is held', () => {
  it('tells a bent-over row from the same elbows beside an upright trunk', () => {
    const { held, ...anyTrunk } = findExercise('bent-over-row');
    expect(held).toBe('trunk-leaning');
    const talking = bodyOf('no-reps-talk');
    expect(repsIn(talking, anyTrunk)).toBeGreaterThan(0);
    const rows = bodyOf('bent-over-row-advised');
    expect(repsIn(rows, findExercise('bent-over-row'))).toBe(repsIn(rows, anyTrunk));
  });
});
