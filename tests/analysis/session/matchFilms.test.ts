import { describe, expect, test } from 'vitest';
import { parseSessionPlan } from '../../../analysis/plan/sessionPlan.js';
import { matchFilms } from '../../../analysis/session/matchFilms.js';
import { type SessionSlot, sessionSlots } from '../../../analysis/session/sessionSlots.js';

const slotsOf = (...exercises: readonly string[]) =>
  sessionSlots(
    parseSessionPlan(`exercises:\n${exercises.map((one) => `  - { ${one} }\n`).join('')}`, 'plan.yaml'),
  );
const slots = slotsOf(
  'exercise: single-arm-row, sets: 2, pair: A',
  'exercise: squat, sets: 3, pair: A',
  'exercise: curl, sets: 1',
);
const told = (slot: SessionSlot | null) =>
  slot === null ? 'none' : `${slot.planned.exerciseId} ${slot.setNumber}`;
const films = (...names: readonly string[]) => names.map((name) => ({ name }));
const matched = (names: readonly string[], of = slots) =>
  matchFilms(films(...names), of).films.map(({ slot }) => told(slot));

describe('films and planned sets', () => {
  test('films take the planned sets in order; the rest is missing', () => {
    const match = matchFilms(films('1.mp4', '2.mp4', '3.mp4'), slots);
    expect(match.films.map(({ slot }) => told(slot))).toEqual([
      'single-arm-row 1',
      'squat 1',
      'single-arm-row 2',
    ]);
    expect(match.missing.map(told)).toEqual(['squat 2', 'squat 3', 'curl 1']);
  });

  test('a film named after an exercise takes its next set, and nobody else does', () => {
    expect(matched(['squat a.mp4', 'Curl.MOV', 'x.mp4'])).toEqual(['squat 1', 'curl 1', 'single-arm-row 1']);
    expect(matched(['x.mp4', 'single_arm_rows-1.mp4', 'goblet-squats 2.mov'])).toEqual([
      'single-arm-row 2',
      'single-arm-row 1',
      'squat 1',
    ]);
  });

  test('part of a name is enough where only one planned exercise has it', () => {
    const one = slotsOf('exercise: single-arm-curl, sets: 2', 'exercise: single-arm-row');
    expect(matched(['row.mp4', 'curl.mp4', 'curls 2.mp4'], one)).toEqual([
      'single-arm-row 1',
      'single-arm-curl 1',
      'single-arm-curl 2',
    ]);
    const several = slotsOf('exercise: seated-row', 'exercise: single-arm-row');
    expect(matched(['row.mp4'], several)).toEqual(['seated-row 1']);
  });

  test('a film of an exercise that is not planned takes no set', () => {
    expect(matched(['split squat.mp4', 'overhead-press.mp4'])).toEqual(['none', 'none']);
    expect(matched(['squat.mp4'], slotsOf('exercise: split-squat'))).toEqual(['split-squat 1']);
  });

  test('a film for each side, where there are just enough of them', () => {
    const names = Array.from({ length: 8 }, (_, index) => `${index}.mp4`);
    const match = matchFilms(films(...names), slots);
    expect(match.films.slice(0, 4).map(({ slot }) => told(slot))).toEqual([
      'single-arm-row 1',
      'single-arm-row 1',
      'squat 1',
      'single-arm-row 2',
    ]);
    expect(match.missing).toEqual([]);
  });

  test('more films than planned sets: the last ones have none', () => {
    expect(matched(Array.from({ length: 7 }, (_, index) => `${index}.mp4`)).at(-1)).toBe('none');
    expect(matched(['curl 1.mp4', 'curl 2.mp4'])).toEqual(['curl 1', 'none']);
  });
});
