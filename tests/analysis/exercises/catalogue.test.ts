import { describe, expect, it } from 'vitest';
import { CATALOGUE, findExercise, nearestExerciseId } from '../../../analysis/exercises/catalogue.js';
import type { JointAngle } from '../../../core/motion/jointAngle.js';

describe('the catalogue', () => {
  it('holds 27 exercises, each id once and in hyphenated lower case', () => {
    const ids = CATALOGUE.map((exercise) => exercise.id);
    expect(new Set(ids).size).toBe(27);
    expect(ids).toHaveLength(27);
    for (const id of ids) expect(id).toMatch(/^[a-z]+(-[a-z]+)*$/);
  });

  it.each(CATALOGUE)(
    '$id: the concentric moves the driving angle from the stretched to the contracted end',
    (exercise) => {
      const { stretched, contracted } = exercise.workingRangeDegrees;
      for (const end of [stretched, contracted]) expect(end[0]).toBeLessThan(end[1]);
      if (exercise.concentric === 'raises') expect(stretched[1]).toBeLessThan(contracted[0]);
      else expect(contracted[1]).toBeLessThan(stretched[0]);
    },
  );

  it.each(CATALOGUE)('$id: has a second range exactly where it has a second angle', (exercise) => {
    expect(exercise.secondRangeDegrees === null).toBe(exercise.secondAngle === null);
    if (exercise.secondAngleCountsForRange) expect(exercise.secondAngle).not.toBeNull();
  });

  it.each(CATALOGUE)('$id: calls a hold a squeeze only where the contracted end is loaded', (exercise) => {
    expect(exercise.words.contractedHold === 'squeeze').toBe(exercise.contractedEndLoaded);
    expect(exercise.words.stretchedHold).not.toBe('squeeze');
  });

  it.each(CATALOGUE)(
    '$id: says where to put the phone, and what is hidden where it is not fully seen',
    (exercise) => {
      expect(exercise.filming).toMatch(/\.$/);
      expect(exercise.advisedViews.length).toBeGreaterThan(0);
      if (exercise.visibility !== 'yes') expect(exercise.caveat).not.toBeNull();
    },
  );

  // Largest healthy passive ranges in degrees, means over groups of adults: elbow flexion 150 and knee flexion
  // 142 (Soucie et al. 2011, as recalled: from memory, not verified), shoulder flexion and abduction 188
  // (Macedo and Magee, in Norkin and White, appendix A, table A.1), hip flexion 134 (Soucie, from memory).
  const LARGEST_NORMAL: Record<JointAngle, number> = {
    'elbow-flexion': 150,
    'knee-flexion': 142,
    'hip-flexion': 134,
    'shoulder-flexion': 188,
    'shoulder-abduction': 188,
    'shoulder-elevation': 188,
    'shoulder-horizontal-abduction': 135,
  };

  it.each(CATALOGUE)('$id: works inside the normal range of its joint', (exercise) => {
    const { stretched, contracted } = exercise.workingRangeDegrees;
    const all = [...stretched, ...contracted];
    expect(Math.max(...all)).toBeLessThanOrEqual(LARGEST_NORMAL[exercise.drivingAngle]);
    // Shoulder extension 70 degrees at most (Macedo and Magee); elbow, knee and hip start from 0.
    expect(Math.min(...all)).toBeGreaterThanOrEqual(0);
    if (exercise.secondRangeDegrees !== null) {
      expect(Math.min(...exercise.secondRangeDegrees.contracted)).toBeGreaterThanOrEqual(-70);
    }
  });
});

describe('findExercise', () => {
  it('forgives capitals, spaces and underscores', () => {
    expect(findExercise('Single arm_Row').id).toBe('single-arm-row');
  });

  it.each([
    ['sqaut', 'squat'],
    ['pull-down', 'pulldown'],
    ['lateral-raises', 'lateral-raise'],
    ['hinge', 'hip-hinge'],
    ['deadlifts', 'deadlift'],
  ])('suggests the nearest name for "%s"', (wrong, nearest) => {
    expect(() => findExercise(wrong)).toThrow(`There is no exercise "${wrong}".`);
    expect(nearestExerciseId(wrong)).toBe(nearest);
  });

  it('suggests nothing where nothing is alike', () => {
    expect(nearestExerciseId('zzzzzzzzzz')).toBeNull();
    expect(nearestExerciseId('')).toBeNull();
    expect(nearestExerciseId('squat', [])).toBeNull();
    expect(() => findExercise('zzzzzzzzzz')).toThrow('zzzzzzzzzz');
  });
});
