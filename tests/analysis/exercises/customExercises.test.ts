import { describe, expect, it } from 'vitest';
import { CATALOGUE, findExercise } from '../../../analysis/exercises/catalogue.js';
import { parseCustomExercises } from '../../../analysis/exercises/customExercises.js';
import { Failure } from '../../../core/failure.js';

const OWN = `exercises:
  - id: towel-row
    name: Towel row
    like: single-arm-row
    workingRange: { stretched: [10, 20], contracted: [80, 100] }
    caveat: The towel hides the wrist at the top.
  - id: wrist-free-curl
    name: Wrist-free curl
    limbs: one-arm
    drivingAngle: elbow-flexion
    start: stretched
    concentric: raises
    workingRange: { stretched: [5, 15], contracted: [110, 135] }
    contractedEndLoaded: true
    words: { contractedHold: squeeze }
`;

describe('parseCustomExercises', () => {
  const [row, curl] = parseCustomExercises(OWN, 'own.yaml');

  it('takes what is not given from the like one', () => {
    // How the body is held is left out: a row of one's own may be done upright.
    const { held: _, ...like } = findExercise('single-arm-row');
    expect(row).toEqual({
      ...like,
      id: 'towel-row',
      name: 'Towel row',
      caveat: 'The towel hides the wrist at the top.',
      workingRangeDegrees: { stretched: [10, 20], contracted: [80, 100] },
    });
  });

  it('takes plain words where there is no like one', () => {
    expect(curl).toMatchObject({
      limbs: 'one-arm',
      defaultStart: 'stretched',
      secondAngle: null,
      visibility: 'yes',
      contractedEndLoaded: true,
      words: { eccentric: 'lowering', concentric: 'lift', stretchedHold: 'pause', contractedHold: 'squeeze' },
    });
  });

  it('drops the second angle where the driving angle is another', () => {
    const [other] = parseCustomExercises(
      'exercises:\n  - { id: knee-row, name: X, like: single-arm-row, drivingAngle: knee-flexion }',
      'own.yaml',
    );
    expect(other).toMatchObject({
      secondAngle: null,
      secondRangeDegrees: null,
      secondAngleCountsForRange: false,
    });
  });

  it('is found beside the catalogue', () => {
    expect(findExercise('towel row', [...CATALOGUE, row!]).id).toBe('towel-row');
  });

  it('reads JSON, and an empty list', () => {
    const json = JSON.stringify({ exercises: [{ id: 'my-dip', name: 'My dip', like: 'dip' }] });
    expect(parseCustomExercises(json, 'own.json')[0]!.concentric).toBe('lowers');
    expect(parseCustomExercises('exercises: []', 'own.yaml')).toEqual([]);
  });

  it.each([
    ['- { id: squat, name: Mine, like: squat }', 2, 11, 'already an exercise "squat"'],
    [
      '- { id: a, name: A, like: squat }\n  - { id: a, name: A, like: dip }',
      3,
      11,
      'already an exercise "a"',
    ],
    ['- { id: My Row, name: A, like: squat }', 2, 11, 'is no id'],
    ['- { id: a, name: A, like: sqaut }', 2, 29, 'Did you mean "squat"?'],
    ['- { id: a, name: A }', 2, 5, 'limbs: this is needed'],
    ['- { id: a, name: A, like: curl, concentric: lowers }', 2, 5, 'cannot lead from 5–15° to 125–140°'],
    [
      '- { id: a, name: A, like: curl, workingRange: { stretched: [15, 5], contracted: [100, 120] } }',
      2,
      49,
      '[least, most]',
    ],
    [
      '- { id: a, name: A, like: curl, workingRange: { stretched: 5, contracted: [100, 120] } }',
      2,
      62,
      'two numbers',
    ],
    ['- { id: a, name: A, like: curl, drivingAngle: ankle }', 2, 49, 'drivingAngle'],
    ['- { id: a, name: A, like: curl, angle: knee }', 2, 35, '"angle" is not known'],
    ['- { name: A, like: curl }', 2, 5, '"id" is missing'],
  ])('says where the fault stands in %j', (entry, line, column, reason) => {
    let failure: unknown;
    try {
      parseCustomExercises(`exercises:\n  ${entry}\n`, 'own.yaml');
    } catch (error) {
      failure = error;
    }
    expect(failure).toBeInstanceOf(Failure);
    expect((failure as Failure).message).toContain(reason);
    expect((failure as Failure).message).toContain(`own.yaml, line ${line}, column ${column}: `);
  });
});
