import { describe, expect, test } from 'vitest';
import { parseCustomExercises } from '../../../analysis/exercises/customExercises.js';
import { parseSessionPlan } from '../../../analysis/plan/sessionPlan.js';
import { plannedPause, type SessionSlot, sessionSlots } from '../../../analysis/session/sessionSlots.js';

const slots = sessionSlots(
  parseSessionPlan(
    `exercises:
  - { exercise: single-arm-row, sets: 2, pair: A, rest: 30 }
  - { exercise: squat, sets: 3, pair: A, rest: 90 }
  - { exercise: curl, sets: 2, rest: 60 }
  - { exercise: dip }
`,
    'plan.yaml',
  ),
);
const told = (slot: SessionSlot) => `${slot.exercise.id} ${slot.setNumber}`;
const slot = (name: string) => slots.find((one) => told(one) === name)!;

describe('the sets of a session', () => {
  test('exercises of a pair take turns; what one has more of follows', () => {
    expect(slots.map(told)).toEqual([
      'single-arm-row 1',
      'squat 1',
      'single-arm-row 2',
      'squat 2',
      'squat 3',
      'curl 1',
      'curl 2',
      'dip 1',
    ]);
  });

  test('no rest inside a turn of a pair, the rest after it is that of its last exercise', () => {
    expect(plannedPause(slot('single-arm-row 1'), slot('squat 1'))).toEqual({ kind: 'back-to-back' });
    expect(plannedPause(slot('squat 1'), slot('single-arm-row 2'))).toEqual({ kind: 'rest', seconds: 90 });
    expect(plannedPause(slot('squat 2'), slot('squat 3'))).toEqual({ kind: 'rest', seconds: 90 });
  });

  test('between other sets the rest after the first of them; a film for each arm is a change of side', () => {
    expect(plannedPause(slot('curl 1'), slot('curl 2'))).toEqual({ kind: 'rest', seconds: 60 });
    expect(plannedPause(slot('curl 2'), slot('dip 1'))).toEqual({ kind: 'rest', seconds: 60 });
    expect(plannedPause(slot('single-arm-row 1'), slot('single-arm-row 1'))).toEqual({
      kind: 'side-change',
    });
    expect(plannedPause(slot('dip 1'), slot('curl 1'))).toBeNull();
    expect(plannedPause(null, slot('dip 1'))).toBeNull();
  });

  test('exercises of the lifter’s own have their sets too', () => {
    const own = parseCustomExercises(
      'exercises:\n  - { id: towel-row, name: Towel row, like: single-arm-row }\n',
      'own.yaml',
    );
    const plan = parseSessionPlan('exercises: [{ exercise: towel-row }]', 'plan.yaml', own);
    expect(sessionSlots(plan, own)[0]?.exercise.name).toBe('Towel row');
  });
});
