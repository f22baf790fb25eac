import { describe, expect, test } from 'vitest';
import { parseSessionPlan } from '../../../analysis/plan/sessionPlan.js';
import { matchFilms, type SessionSlot, sessionSlots } from '../../../analysis/session/sessionSlots.js';

const plan = parseSessionPlan(
  `exercises:
  - { exercise: single-arm-row, sets: 2, pair: A }
  - { exercise: squat, sets: 3, pair: A }
  - { exercise: curl, sets: 1 }
`,
  'plan.yaml',
);
const told = (slot: SessionSlot | null) =>
  slot === null ? 'none' : `${slot.planned.exerciseId} ${slot.setNumber}`;
const films = (...names: readonly string[]) => names.map((name) => ({ name }));

describe('the sets of a session', () => {
  test('exercises of a pair take turns; what one has more of follows', () => {
    expect(sessionSlots(plan).map(told)).toEqual([
      'single-arm-row 1',
      'squat 1',
      'single-arm-row 2',
      'squat 2',
      'squat 3',
      'curl 1',
    ]);
  });

  test('films take the planned sets in order; the rest is missing', () => {
    const match = matchFilms(films('1.mp4', '2.mp4', '3.mp4'), sessionSlots(plan));
    expect(match.films.map(({ slot }) => told(slot))).toEqual([
      'single-arm-row 1',
      'squat 1',
      'single-arm-row 2',
    ]);
    expect(match.missing.map(told)).toEqual(['squat 2', 'squat 3', 'curl 1']);
  });

  test('a film named after an exercise takes its next set', () => {
    const match = matchFilms(films('squat a.mp4', 'Curl.MOV', 'x.mp4'), sessionSlots(plan));
    expect(match.films.map(({ slot }) => told(slot))).toEqual(['squat 1', 'curl 1', 'single-arm-row 1']);
  });

  test('a film for each side, where there are just enough of them', () => {
    const names = Array.from({ length: 8 }, (_, index) => `${index}.mp4`);
    const match = matchFilms(films(...names), sessionSlots(plan));
    expect(match.films.slice(0, 4).map(({ slot }) => told(slot))).toEqual([
      'single-arm-row 1',
      'single-arm-row 1',
      'squat 1',
      'single-arm-row 2',
    ]);
    expect(match.missing).toEqual([]);
  });

  test('more films than planned sets: the last ones have none', () => {
    const names = Array.from({ length: 7 }, (_, index) => `${index}.mp4`);
    expect(told(matchFilms(films(...names), sessionSlots(plan)).films.at(-1)!.slot)).toBe('none');
  });
});
