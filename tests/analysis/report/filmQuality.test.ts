import { describe, expect, it } from 'vitest';
import { findExercise } from '../../../analysis/exercises/catalogue.js';
import { filmFindings, unusableReason } from '../../../analysis/report/filmQuality.js';
import { findBouts } from '../../../analysis/segmentation/strokes.js';
import type { FilmFacts } from '../../../core/media/film.js';
import { type Body, readBody } from '../../../core/motion/body.js';
import { KEYPOINT_COUNT, KEYPOINT_INDEX } from '../../../core/pose/keypoints.js';
import { filmed, STANDING, times } from '../../core/motion/stickFigure.js';

const squat = findExercise('squat');
const standing = readBody(filmed(times(4), () => STANDING, { azimuthDegrees: -90, torsoPixels: 150 }));
const film: FilmFacts = {
  file: 'squat.mp4',
  recordedAt: null,
  durationSeconds: 4,
  width: standing.width,
  height: standing.height,
  frameRate: 30,
  variableFrameRate: false,
  slowMotionFactor: 1,
  rotationDegrees: 0,
  flipped: false,
  highDynamicRange: false,
  codec: 'h264',
};
const found = (body: Partial<Body>, facts: Partial<FilmFacts> = {}) =>
  filmFindings({ ...standing, ...body }, { ...film, ...facts }, [], [], squat);

describe('what is worth knowing about a film', () => {
  it('is nothing where nothing is odd', () => {
    expect(found({})).toEqual([]);
  });

  it('is that left and right were confused, from one joint pair in fifty on', () => {
    expect(found({ swappedShare: 0.021 })).toEqual(['labels-swapped']);
    expect(found({ swappedShare: 0.019 })).toEqual([]);
  });

  it('is slow motion, undone or doubtful, and a lifter who is not surely the one', () => {
    expect(found({}, { slowMotionFactor: 4 })).toEqual(['slow-motion']);
    expect(found({}, { slowMotionDoubtful: true })).toEqual(['slow-motion-doubtful']);
    expect(found({ people: { medianCount: 2, lifterDoubtful: true } })).toEqual(['lifter-doubtful']);
  });
});

const squats = readBody(
  filmed(
    times(30),
    (seconds) => {
      const depth = (1 - Math.cos((2 * Math.PI * seconds) / 5)) / 2;
      return { ...STANDING, kneeFlexion: 100 * depth, hipFlexion: 90 * depth, trunkLean: 30 * depth };
    },
    { azimuthDegrees: -90, torsoPixels: 150 },
  ),
);
const ask = { exercise: squat, film: { startSeconds: 0, endSeconds: 30 }, plannedStartHoldSeconds: 0 };
const codesOf = (body: Body) => {
  const bouts = findBouts(body, ask);
  expect(bouts.length).toBeGreaterThan(0);
  return filmFindings(body, film, bouts, [], squat);
};

describe('a quick look', () => {
  it('says so beside its figures, and no other quality does', () => {
    expect(codesOf({ ...squats, quality: 'quick' })).toContain('quick-look');
    expect(codesOf({ ...squats, quality: 'standard' })).not.toContain('quick-look');
    expect(codesOf({ ...squats, quality: 'full' })).not.toContain('quick-look');
  });
});

describe('feet at the edge of the picture', () => {
  const ankle = KEYPOINT_INDEX['right-ankle'];
  const lowest = Math.max(...squats.y.filter((_, at) => at % KEYPOINT_COUNT === ankle));

  it('take the degrees from the range, and leave the times', () => {
    const cut = { ...squats, height: Math.ceil(lowest / 0.99) };
    expect(codesOf(cut)).toContain('joint-at-edge');
    for (const bout of findBouts(cut, ask)) expect(bout.driving.degreesTrustworthy).toBe(false);
  });

  it('do not where a little floor is left under them', () => {
    expect(codesOf({ ...squats, height: Math.ceil(lowest / 0.95) })).not.toContain('joint-at-edge');
  });
});

describe('why a film gave no answer', () => {
  const scored = (value: number) => ({ ...standing, score: standing.score.map(() => value) });

  it('is the other side, nobody, a hidden joint, or no reps, in this order', () => {
    const hidden = { ...standing, seen: standing.seen.map(() => 0) };
    expect(unusableReason(hidden, squat, true)).toBe('other-side-only');
    expect(unusableReason(scored(0.1), squat, false)).toBe('no-lifter');
    expect(unusableReason(hidden, squat, false)).toBe('joint-not-visible');
    expect(unusableReason(standing, squat, false)).toBe('no-reps');
  });
});
