import { describe, expect, test } from 'vitest';
import { checkFilm } from '../../../analysis/check/filmCheck.js';
import { CATALOGUE } from '../../../analysis/exercises/catalogue.js';
import type { FilmFacts } from '../../../core/media/film.js';
import { KEYPOINT_INDEX, type Keypoint } from '../../../core/pose/keypoints.js';
import type { Look } from '../../../core/pose/people.js';

const FILM: FilmFacts = {
  ...{ file: 'row.mp4', recordedAt: null, durationSeconds: 40, width: 480, height: 640, frameRate: 30 },
  ...{ variableFrameRate: false, slowMotionFactor: 1, rotationDegrees: 0, flipped: false },
  ...{ highDynamicRange: false, codec: 'h264' },
};

/** Someone standing, seen from the front (their left is on the right of the picture), as shares of their height. */
const STANDING: Readonly<Record<string, readonly [number, number]>> = {
  nose: [0, 0.05],
  eye: [0.02, 0.04],
  ear: [0.04, 0.05],
  shoulder: [0.11, 0.18],
  elbow: [0.13, 0.36],
  wrist: [0.14, 0.5],
  hip: [0.06, 0.5],
  knee: [0.06, 0.75],
  ankle: [0.06, 0.98],
};

interface Person {
  readonly height?: number;
  readonly top?: number;
  /** 1 from the front, 0 from the side. */
  readonly width?: number;
  readonly unseen?: readonly string[];
}

function person({ height = 440, top = 100, width = 1, unseen = [] }: Person = {}): Float32Array {
  const points = new Float32Array(51);
  for (const [name, at] of Object.entries(KEYPOINT_INDEX) as [Keypoint, number][]) {
    const part = name.replace(/^(left|right)-/, '');
    const [across, down] = STANDING[part]!;
    // From the side the lifter faces right: the nose lies before the ears, and the left side is behind.
    const side = name.startsWith('left-') ? 1 : -1;
    const forward = width === 0 && part === 'nose' ? 0.05 : 0;
    const hidden = unseen.includes(part) || (width === 0 && name.startsWith('left-'));
    points.set(
      [240 + (across * side * width + forward) * height, top + down * height, hidden ? 0.1 : 0.8],
      at * 3,
    );
  }
  return points;
}

const looks = (...people: Float32Array[]): Look[] =>
  Array.from({ length: 12 }, (_, index) => ({ seconds: index * 3, people }));
const bright = Array.from({ length: 12 }, () => 120);
const check = (film: Partial<FilmFacts>, seen: Look[], brightness = bright) =>
  checkFilm({ ...FILM, ...film }, seen, brightness, CATALOGUE);
const codes = (film: Partial<FilmFacts>, seen: Look[], brightness = bright) =>
  check(film, seen, brightness).findings.map(({ code }) => code);
const answerFor = (id: string, seen: Look[]) =>
  check({}, seen).exercises.find((exercise) => exercise.id === id)!;

describe('what a film can be asked', () => {
  test('a good film needs no change', () => {
    expect(check({}, looks(person()))).toMatchObject({ usable: true, findings: [], people: 1 });
  });

  test('the view decides for which exercises', () => {
    const front = looks(person());
    const side = looks(person({ width: 0 }));
    expect(answerFor('lateral-raise', front).answer).toBe('yes');
    expect(answerFor('lateral-raise', side)).toMatchObject({
      answer: 'partly',
      reason: expect.stringContaining('front'),
    });
    expect(answerFor('squat', side).answer).toBe('yes');
    expect(answerFor('squat', front).answer).toBe('partly');
    expect(answerFor('bench-press', front).answer).not.toBe('yes');
  });

  test('a joint out of sight', () => {
    const noLegs = looks(person({ width: 0, unseen: ['knee', 'ankle'] }));
    expect(answerFor('squat', noLegs)).toMatchObject({
      answer: 'no',
      reason: expect.stringContaining('out of sight'),
    });
    expect(answerFor('curl', noLegs).answer).toBe('yes');
    expect(codes({}, noLegs)).toContain('out-of-picture');
  });

  test('nobody', () => {
    const nobody = check({}, looks());
    expect(nobody).toMatchObject({
      usable: false,
      view: null,
      headline: expect.stringContaining('Cannot tell'),
    });
    expect(nobody.findings[0]).toMatchObject({ code: 'no-lifter', level: 'problem' });
    expect(nobody.exercises.every(({ answer }) => answer === 'no')).toBe(true);
  });
});

test.each([
  ['few-frames', { frameRate: 5 }, looks(person()), bright],
  ['dark', {}, looks(person()), bright.map(() => 20)],
  ['lifter-small', {}, looks(person({ height: 100 })), bright],
  ['out-of-picture', {}, looks(person({ top: 220 })), bright],
  ['short-film', { durationSeconds: 2 }, looks(person()), bright],
  ['several-people', {}, looks(person(), person({ height: 300 })), bright],
  ['long-film', { durationSeconds: 900 }, looks(person()), bright],
  ['slow-motion', { slowMotionFactor: 8 }, looks(person()), bright],
  ['slow-motion-doubtful', { slowMotionDoubtful: true }, looks(person()), bright],
] as const)('says what to change: %s', (code, film, seen, brightness) => {
  const found = check(film, [...seen], [...brightness]).findings;
  expect(found.map((finding) => finding.code)).toEqual([code]);
  expect(found[0]!.remedy).not.toBe('');
});

test('slow motion of few stored frames a second is judged by its real rate', () => {
  expect(codes({ frameRate: 15, slowMotionFactor: 8 }, looks(person()))).toEqual(['slow-motion']);
});
