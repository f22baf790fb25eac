import { describe, expect, it } from 'vitest';
import { parseStage } from '../../../analysis/plan/stage.js';
import {
  deliveredLowering,
  lastControlledRep,
  slowedBeyondDoubt,
  speedLoss,
} from '../../../analysis/scoring/fatigue.js';
import { trendOverReps } from '../../../analysis/scoring/trendOverReps.js';
import { type RepPlan, score, times } from './syntheticBout.js';

describe('lastControlledRep', () => {
  it.each([
    ['.....', 5],
    ['...ss', 3],
    ['..s.s', 4],
    ['..s..', 5],
    ['....s', 4],
    ['.ss..', 1],
    ['ss...', null],
    ['s', null],
  ])('of "%s" (s: short) is %s', (pattern, number) => {
    const reps = [...pattern].map((letter) => ({ eccentric: letter === 's' ? 2 : 5 }));
    const plan = { stages: [parseStage('5-0-1-0')], restSeconds: null };
    const bout = score([{ exercise: 'curl', reps }], { plan }).bouts[0]!;
    expect(bout.summary.lastControlledRep).toBe(number);
    expect(lastControlledRep(bout.reps)).toBe(number);
  });

  it('is not moved by a last rep that the film cuts off: its lowering was not seen whole', () => {
    const plan = { stages: [parseStage('5-0-1-0')], restSeconds: null };
    const { reps } = score([{ exercise: 'curl', reps: [5, 5, 2].map((eccentric) => ({ eccentric })) }], {
      plan,
    }).bouts[0]!;
    expect(lastControlledRep(reps)).toBe(2);
    const cut = reps.map((rep, index) => (index === 2 ? { ...rep, complete: false } : rep));
    expect(lastControlledRep([...cut.slice(0, 2), cut[2]!])).toBe(2);
    expect(lastControlledRep([...cut.slice(0, 1), { ...cut[1]!, complete: false }])).toBe(1);
  });

  it('is none without reps', () => {
    expect(lastControlledRep([])).toBeNull();
    expect(deliveredLowering([])).toBeNull();
  });
});

describe('deliveredLowering', () => {
  it('counts no rep for more than was planned', () => {
    const plan = { stages: [parseStage('5-0-1-0')], restSeconds: null };
    const { reps } = score([{ exercise: 'curl', reps: [{ eccentric: 7 }, { eccentric: 4 }] }], { plan })
      .bouts[0]!;
    expect(deliveredLowering(reps)).toEqual({ deliveredSeconds: 9, plannedSeconds: 10 });
  });
});

describe('speedLoss', () => {
  // (fastest - last) / fastest over 0.62 .60 .57 .53 .48 .42 m/s: 0, 3.23, 8.06, 14.52, 22.58, 32.26 %
  // (the definition of velocity loss in the training literature; figures computed from it).
  it('gives the worked example', () => {
    const speeds = [0.62, 0.6, 0.57, 0.53, 0.48, 0.42];
    const losses = speeds.slice(1).map((_, index) => speedLoss(speeds.slice(0, index + 2))! * 100);
    for (const [index, percent] of [3.23, 8.06, 14.52, 22.58, 32.26].entries()) {
      expect(losses[index]).toBeCloseTo(percent, 2);
    }
    expect(speedLoss([0.62])).toBeNull();
    expect(speedLoss([0, 0])).toBeNull();
  });
});

describe('slowedBeyondDoubt', () => {
  const lifts = (...seconds: readonly number[]) =>
    score([{ exercise: 'curl', reps: seconds.map((concentric) => ({ concentric })) }]).bouts[0]!.reps;

  it('tells a last lift that took twice as long, and not one that took as long within the ±', () => {
    expect(slowedBeyondDoubt(lifts(0.5, 0.5, 0.6, 0.8, 1))).toBe(true);
    expect(slowedBeyondDoubt(lifts(1, 1, 1, 1, 1.001))).toBe(false);
    expect(slowedBeyondDoubt(lifts(1.2, 1.1, 1))).toBe(false);
    expect(slowedBeyondDoubt([])).toBe(false);
  });
});

describe('the summary of a bout', () => {
  const curl = (plan: string | null, done: readonly RepPlan[]) =>
    score([{ exercise: 'curl', reps: done }], {
      plan: plan === null ? null : { stages: [parseStage(plan)], restSeconds: null },
    }).bouts[0]!.summary;

  it('adds up delivered and planned lowering seconds of the counted reps', () => {
    const summary = curl('5-0-1-0:10', [
      ...times(7, { eccentric: 5 }),
      { eccentric: 3 },
      { eccentric: 3 },
      { eccentric: 2, contracted: 65 },
    ]);
    expect(summary).toMatchObject({
      completeReps: 9,
      failedReps: 1,
      lastControlledRep: 7,
      plannedLoweringSeconds: 45,
      deliveredLoweringSeconds: 41,
    });
    expect(summary.deliveredLoweringShare).toBeCloseTo(41 / 45, 12);
  });

  it('says nothing of lowering where no seconds were planned', () => {
    for (const plan of [null, 'X-0-1-0', '_-0-1-0']) {
      expect(curl(plan, times(5))).toMatchObject({ deliveredLoweringShare: null, lastControlledRep: null });
    }
  });

  it('adds all phases of all reps to the time under tension, those of a cut rep too', () => {
    const summary = curl(null, [
      { eccentric: 2, concentric: 1, contractedHold: 1, stretchedHold: 0.5 },
      { eccentric: 2, concentric: 1, complete: false },
    ]);
    expect(summary.timeUnderTensionSeconds).toBeCloseTo(7.5, 9);
  });

  it('reports concentric speed loss only where the lift was explosive or free', () => {
    const tiring = [0.5, 0.5, 0.6, 0.8, 1].map((concentric) => ({ concentric }));
    expect(curl('2-0-X-0', tiring).concentricSpeedLoss).toBeCloseTo(0.5, 9);
    expect(curl(null, tiring).concentricSpeedLoss).toBeCloseTo(0.5, 9);
    expect(curl('2-0-1-0', tiring).concentricSpeedLoss).toBeNull();
  });

  it('halves every move by its angle and keeps its stalls', () => {
    const [rep] = score([{ exercise: 'curl', reps: times(3, { eccentric: 3 }) }]).bouts[0]!.reps;
    const eccentric = rep!.phases.find((phase) => phase.kind === 'eccentric')!;
    expect(eccentric).toMatchObject({ firstHalfSeconds: 1.5, secondHalfSeconds: 1.5, stalls: [] });
    const hold = rep!.phases.find((phase) => phase.kind === 'contracted-hold')!;
    expect(hold.firstHalfSeconds).toBeUndefined();
  });

  it('sees a tempo that drifts', () => {
    const drifting = [4, 3.8, 3.5, 3.3, 3.0, 2.8, 2.4].map((eccentric) => ({ eccentric }));
    const { eccentricTrend } = curl(null, drifting);
    expect(eccentricTrend).toMatchObject({ clear: true });
    expect(eccentricTrend!.perRep).toBeCloseTo(-0.26, 1);
    expect(curl(null, times(7)).eccentricTrend).toMatchObject({ perRep: 0, clear: false });
    expect(curl(null, times(4)).eccentricTrend).toBeNull();
  });
});

describe('trendOverReps', () => {
  const series = (values: readonly number[], uncertainty: number) =>
    values.map((value, index) => ({ rep: index + 1, value, uncertainty }));

  it('is not clear within what the camera can tell', () => {
    const values = [4, 3.99, 3.98, 3.97, 3.96, 3.95];
    expect(trendOverReps(series(values, 0.1))).toMatchObject({ clear: false });
    expect(trendOverReps(series(values, 0.01))).toMatchObject({ clear: true });
    expect(trendOverReps(series(values, 0.1))!.probability).toBeCloseTo(2 / 720, 12);
  });
});
