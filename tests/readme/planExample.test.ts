import { readFileSync } from 'node:fs';
import { describe, expect, test } from 'vitest';
import { parseSessionPlan } from '../../analysis/plan/sessionPlan.js';

const readme = readFileSync(new URL('../../README.md', import.meta.url), 'utf8');
const example = [...readme.matchAll(/^```yaml\n([\s\S]*?)^```/gm)]
  .map((block) => block[1]!)
  .find((text) => text.includes('lifter:'))!;

describe('the plan in the README', () => {
  test('reads as it is said there', () => {
    const plan = parseSessionPlan(example, 'plan.yaml');
    expect(plan).toMatchObject({ name: 'Garage, Tuesday', lifter: 'Kim' });
    expect(plan.exercises.map(({ exerciseId, sets, pair }) => [exerciseId, sets, pair])).toEqual([
      ['single-arm-row', 3, null],
      ['squat', 2, null],
      ['curl', 2, 'A'],
      ['lateral-raise', 2, 'A'],
    ]);
    expect(plan.exercises.map((one) => one.plan.restSeconds)).toEqual([90, 120, null, 60]);
    expect(
      plan.exercises[3]!.plan.stages.map((stage) => [stage.load?.value ?? null, stage.partials]),
    ).toEqual([
      [5, undefined],
      [null, undefined],
      [null, true],
    ]);
  });

  test('a slip is told with the line and column that it stands in', () => {
    const slip = example.replace('tempo: 4-0-X-1', 'tempo: 4-0-q-1');
    const line = slip.split('\n').findIndex((text) => text.includes('4-0-q-1')) + 1;
    expect(() => parseSessionPlan(slip, 'plan.yaml')).toThrow(`plan.yaml, line ${line}, column 12: `);
    const unknown = example.replace('    rest: 90', '    break: 90');
    const at = unknown.split('\n').findIndex((text) => text.includes('break')) + 1;
    expect(() => parseSessionPlan(unknown, 'plan.yaml')).toThrow(
      `plan.yaml, line ${at}, column 5: "break" is not known here.`,
    );
  });
});
