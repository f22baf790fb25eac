import { readFileSync } from 'node:fs';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { plannedSet } from '../../../analysis/plan/plannedSet.js';
import { parseRestSeconds, parseSessionPlan } from '../../../analysis/plan/sessionPlan.js';
import { parseTempo } from '../../../analysis/plan/tempo.js';
import { Failure } from '../../../core/failure.js';

const garage = readFileSync(new URL('../../../fixtures/plans/garage.yaml', import.meta.url), 'utf8');

describe('parseSessionPlan', () => {
  const session = parseSessionPlan(garage, 'garage.yaml');

  it('reads exercises, sets, tempo, reps, load and rest', () => {
    expect(session).toMatchObject({ name: 'Garage, Tuesday', lifter: null });
    expect(session.exercises).toHaveLength(4);
    expect(session.exercises[0]).toEqual({
      exerciseId: 'single-arm-row',
      sets: 3,
      plan: {
        stages: [{ tempo: parseTempo('4-0-X-1'), reps: { min: 8, max: 10 }, load: null }],
        restSeconds: 90,
      },
      load: { value: 16, unit: 'kg' },
      pair: null,
    });
  });

  it('keeps a tempo written as a number', () => {
    expect(session.exercises[2]!.plan.stages[0]?.tempo).toEqual(parseTempo('3-0-1-0'));
  });

  it('reads stages with their own loads, and pairs', () => {
    const raises = session.exercises[3]!;
    expect(raises.plan.stages.map((stage) => stage.load?.value)).toEqual([5, 5]);
    expect(raises.plan.stages[1]!.tempo?.concentric).toBe('X');
    expect([session.exercises[2]!.pair, raises.pair]).toEqual(['A', 'A']);
    expect(raises.plan.restSeconds).toBe(60);
  });

  it('reads the same plan as JSON', () => {
    const json = JSON.stringify({
      exercises: [{ exercise: 'squat', sets: 3, tempo: '3-1-1-_', reps: 8, rest: '2 min', load: '20kg' }],
    });
    const [squats] = parseSessionPlan(json, 'plan.json').exercises;
    expect(squats).toEqual(session.exercises[1]);
  });

  it('leaves a tempo away where none is given', () => {
    const [entry] = parseSessionPlan('exercises: [{ exercise: dip }]', 'plan.yaml').exercises;
    expect(entry).toEqual({
      exerciseId: 'dip',
      sets: 1,
      plan: { stages: [], restSeconds: null },
      load: null,
      pair: null,
    });
  });

  it.each([
    ['exercises:\n  - exercise: sqaut\n', 2, 15, 'There is no exercise "sqaut"'],
    ['exercises:\n  - exercise: squat\n    tempo: 4-0-y-1\n', 3, 12, '"y" is not'],
    ['exercises:\n  - exercise: squat\n    reps: 10-8\n', 3, 11, 'run backwards'],
    ['exercises:\n  - exercise: squat\n    load: heavy\n', 3, 11, 'cannot be read'],
    ['exercises:\n  - exercise: squat\n    rest: long\n', 3, 11, 'cannot be read'],
    ['exercises:\n  - exercise: squat\n    sets: 0\n', 3, 11, 'no number from 1 to 50'],
    ['exercises:\n  - exercise: squat\n    sets: 1.5\n', 3, 11, 'half sets'],
    ['exercises:\n  - exercise: squat\n    weight: 20kg\n', 3, 5, '"weight" is not known'],
    ['exercises:\n  - sets: 3\n', 2, 5, '"exercise" is missing'],
    [
      'exercises:\n  - exercise: squat\n    tempo: 4-0-1-1\n    stages: [{ reps: 8 }]\n',
      4,
      13,
      'inside the stages',
    ],
    ['exercises:\n  - exercise: squat\n    stages: [{ partials: maybe }]\n', 3, 26, 'neither true nor false'],
    ['exercises: []\n', 1, 12, 'no exercise is listed'],
    ['exercises: squat\n', 1, 12, 'expected a list'],
    ['name: x\n', 1, 1, '"exercises" is missing'],
    ['', 1, 1, ''],
    ['exercises:\n  - exercise: "squat\n', 3, 1, 'quote'],
    ['exercises:\n  - exercise: squat\n  - exercise: [1\n', 4, 1, ''],
  ])('says where the fault stands in %j', (text, line, column, reason) => {
    try {
      parseSessionPlan(text, 'plan.yaml');
    } catch (error) {
      expect(error).toBeInstanceOf(Failure);
      expect((error as Failure).kind).toBe('usage');
      expect((error as Failure).message).toContain(reason);
      expect((error as Failure).message).toContain(`plan.yaml, line ${line}, column ${column}: `);
      expect((error as Failure).remedy).toContain('exercise');
      return;
    }
    throw new Error('nothing was thrown');
  });

  it('either reads a text or refuses it with a Failure, never anything else', () => {
    const pieces = fc.constantFrom(
      'exercises',
      ':',
      '\n',
      '  ',
      '- ',
      'squat',
      '[',
      '}',
      '"',
      '4-0-1-1',
      '&a',
      '*a',
      '#',
    );
    fc.assert(
      fc.property(fc.array(pieces, { maxLength: 20 }), (parts) => {
        try {
          parseSessionPlan(parts.join(''), 'plan.yaml');
        } catch (error) {
          expect(error).toBeInstanceOf(Failure);
        }
      }),
    );
  });
});

describe('plannedSet', () => {
  const session = parseSessionPlan(
    'exercises:\n  - { exercise: squat, sets: 2, reps: 8 }\n  - { exercise: dip, reps: 5 }\n  - { exercise: squat, reps: 12 }\n',
    'plan.yaml',
  );
  const repsOf = (id: string, set?: number) => plannedSet(session, id, set)?.plan.stages[0]?.reps?.min;

  it('finds the entry that holds the set', () => {
    expect([1, 2, 3, 4].map((set) => repsOf('squat', set))).toEqual([8, 8, 12, 12]);
    expect(repsOf('dip')).toBe(5);
    expect(plannedSet(session, 'curl')).toBeNull();
  });
});

describe('parseRestSeconds', () => {
  it.each([
    ['90', 90],
    ['90s', 90],
    ['2 min', 120],
    ['1.5min', 90],
    ['1:30', 90],
  ])('reads %s', (text, seconds) => {
    expect(parseRestSeconds(text)).toBe(seconds);
  });

  it.each(['', 'a while', '-5', '1:75'])('refuses "%s"', (text) => {
    expect(() => parseRestSeconds(text)).toThrow(Failure);
  });
});
