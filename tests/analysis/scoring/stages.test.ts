import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { Plan } from '../../../analysis/plan/plan.js';
import { parseStage } from '../../../analysis/plan/stage.js';
import { bestSplit } from '../../../analysis/scoring/changePoints.js';
import { assignStages } from '../../../analysis/scoring/stages.js';
import { measuredBout, type RepPlan, score, times } from './syntheticBout.js';

const plan = (...stages: string[]): Plan => ({ stages: stages.map(parseStage), restSeconds: null });
const SLOW_THEN_QUICK = plan('5-0-1-1:8-10', '1-0-X-0:5-10');

const assign = (reps: readonly RepPlan[], given: Plan | null = SLOW_THEN_QUICK) =>
  assignStages(measuredBout({ exercise: 'lateral-raise', side: 'both', reps }).reps, given);

const slow = (count: number) => times(count, { eccentric: 5 });
const quick = (count: number) => times(count, { eccentric: 1, concentric: 0.6 });

/** "8 6": eight reps of stage 1, then six of stage 2. */
function runs(stageOfRep: readonly (number | null)[]): string {
  const counts = new Map<number | null, number>();
  for (const stage of stageOfRep) counts.set(stage, (counts.get(stage) ?? 0) + 1);
  return [...counts].map(([stage, count]) => `${stage}:${count}`).join(' ');
}

describe('assignStages', () => {
  it('gives no stage without a plan, and one stage with a plan of one', () => {
    expect(assign(slow(2), null)).toEqual({ stageOfRep: [null, null], switches: [] });
    expect(assign(slow(2), plan('5-0-1-1:8'))).toEqual({ stageOfRep: [1, 1], switches: [] });
  });

  it('finds where the lifter switched, inside what the plan leaves open', () => {
    const assigned = assign([...slow(9), ...quick(6)]);
    expect(runs(assigned.stageOfRep)).toBe('1:9 2:6');
    expect(assigned.switches).toEqual([{ fromStage: 1, afterRep: 9, plannedAfterRep: { min: 8, max: 10 } }]);
  });

  it('holds an early switch against the plan', () => {
    const assigned = assign([...slow(5), ...quick(8)]);
    expect(assigned.switches[0]!.afterRep).toBe(5);
    expect(runs(assigned.stageOfRep)).toBe('1:8 2:5');
  });

  it('holds a late switch against the plan', () => {
    const assigned = assign([...slow(12), ...quick(4)]);
    expect(assigned.switches[0]!.afterRep).toBe(12);
    expect(runs(assigned.stageOfRep)).toBe('1:10 2:6');
  });

  it('sees no switch where the lifter never changed', () => {
    const assigned = assign(slow(9));
    expect(assigned.switches).toEqual([]);
    expect(runs(assigned.stageOfRep)).toBe('1:9');
  });

  it('takes gradual tiring for no switch', () => {
    const tiring = Array.from({ length: 10 }, (_, index) => ({ eccentric: 5 - 0.1 * index }));
    expect(assign(tiring).switches).toEqual([]);
  });

  it('takes one quick last rep before the planned place for lost control, not for a switch', () => {
    expect(assign([...slow(6), ...quick(1)]).switches).toEqual([]);
  });

  it('finds the switch though the slow reps are quicker than planned', () => {
    const assigned = assign([...times(8, { eccentric: 3 }), ...times(5, { eccentric: 0.9 })]);
    expect(assigned.switches[0]!.afterRep).toBe(8);
  });

  it('finds two switches, and one where the last stage was never begun', () => {
    const three = plan('5-0-1-0:4-6', '2-0-1-0:4-6', '1-0-X-0:4-6');
    const all = [...slow(5), ...times(4, { eccentric: 2 }), ...times(6, { eccentric: 0.8 })];
    expect(assign(all, three).switches.map((one) => one.afterRep)).toEqual([5, 9]);
    expect(runs(assign(all, three).stageOfRep)).toBe('1:5 2:4 3:6');
    expect(assign(all.slice(0, 9), three).switches.map((one) => one.afterRep)).toEqual([5]);
    expect(assign(all, three).switches[1]!.plannedAfterRep).toEqual({ min: 9, max: 11 });
  });

  it('uses the concentric where the eccentric stays the same', () => {
    const assigned = assign(
      [...times(6, { eccentric: 2, concentric: 3 }), ...times(6, { eccentric: 2, concentric: 0.7 })],
      plan('2-0-3-0', '2-0-X-0'),
    );
    expect(assigned.switches).toEqual([{ fromStage: 1, afterRep: 6, plannedAfterRep: null }]);
    expect(runs(assigned.stageOfRep)).toBe('1:6 2:6');
  });

  it('counts where the tempo tells nothing', () => {
    const assigned = assign(times(9), plan('2-0-1-0:4', '2-0-1-1:5'));
    expect(assigned.switches).toEqual([]);
    expect(runs(assigned.stageOfRep)).toBe('1:4 2:5');
  });

  it('finds the switch in seeded noise', () => {
    fc.assert(
      fc.property(
        fc.integer({ min: 8, max: 10 }),
        fc.integer({ min: 5, max: 8 }),
        fc.array(fc.double({ min: -0.15, max: 0.15, noNaN: true }), { minLength: 18, maxLength: 18 }),
        (slowReps, quickReps, noise) => {
          const reps = [...slow(slowReps), ...quick(quickReps)].map((rep, index) => ({
            ...rep,
            eccentric: rep.eccentric! * (1 + noise[index]!),
          }));
          expect(assign(reps).switches.map((one) => one.afterRep)).toEqual([slowReps]);
        },
      ),
      { seed: 7 },
    );
  });
});

describe('bestSplit', () => {
  // Fisher 1958 groups ordered values so that the squared deviations inside the groups are least.
  it('finds the least-squares split, which brute force confirms', () => {
    fc.assert(
      fc.property(fc.array(fc.integer({ min: 0, max: 20 }), { minLength: 4, maxLength: 9 }), (values) => {
        const features = values.map((value) => [value]);
        const [found] = bestSplit(features, [[-1e-9]], [1, 1]);
        if (found === undefined) return;
        const deviations = (part: number[]) => {
          const centre = part.reduce((sum, value) => sum + value, 0) / part.length;
          return part.reduce((sum, value) => sum + (value - centre) ** 2, 0);
        };
        const cost = (end: number) => deviations(values.slice(0, end)) + deviations(values.slice(end));
        const least = Math.min(...values.slice(1).map((_, index) => cost(index + 1)));
        expect(cost(found)).toBeCloseTo(least, 9);
      }),
    );
  });

  it('sees nothing in reps that were not seen', () => {
    expect(bestSplit([[null], [null], [null]], [[-1]], [1, 1])).toEqual([]);
    expect(bestSplit([[1], [1]], [[null]], [1, 1])).toEqual([]);
  });
});

describe('stages of a whole set', () => {
  it('numbers reps through the stages', () => {
    const { bouts } = score([{ exercise: 'lateral-raise', side: 'both', reps: [...slow(8), ...quick(5)] }], {
      plan: SLOW_THEN_QUICK,
    });
    expect(bouts[0]!.reps.map((rep) => rep.number)).toEqual([1, 2, 3, 4, 5, 6, 7, 8, 9, 10, 11, 12, 13]);
    expect(bouts[0]!.summary.stageSwitches).toEqual([
      { fromStage: 1, afterRep: 8, plannedAfterRep: { min: 8, max: 10 } },
    ]);
    expect(bouts[0]!.reps[8]!.phases.find((phase) => phase.kind === 'eccentric')).toMatchObject({
      plannedSeconds: 1,
      verdict: 'met',
    });
  });

  it('goes on with the next stage after a rest, and begins anew with a new set', () => {
    const bout = (reps: readonly RepPlan[], startSeconds: number) => ({
      exercise: 'lateral-raise',
      side: 'both' as const,
      reps,
      startSeconds,
    });
    const rested = score([bout(slow(9), 0), bout(quick(6), 70)], { plan: SLOW_THEN_QUICK });
    expect(rested.bouts[1]!.reps.every((rep) => rep.stage === 2)).toBe(true);
    const anew = score([bout(slow(9), 0), bout(slow(8), 70)], { plan: SLOW_THEN_QUICK });
    expect(anew.bouts[1]!.reps.every((rep) => rep.stage === 1)).toBe(true);
    const whole = score([bout([...slow(9), ...quick(6)], 0), bout(slow(9), 100)], { plan: SLOW_THEN_QUICK });
    expect(whole.bouts[1]!.reps.every((rep) => rep.stage === 1)).toBe(true);
  });
});
