import { describe, expect, it } from 'vitest';
import type { Plan } from '../../../analysis/plan/plan.js';
import { parseStage } from '../../../analysis/plan/stage.js';
import type { MeasuredRep } from '../../../analysis/segmentation/bout.js';
import { measuredBout, scoreMeasured, times } from './syntheticBout.js';

const plan = (stage: string): Plan => ({ stages: [parseStage(stage)], restSeconds: null });

function scored(change: (rep: MeasuredRep) => MeasuredRep, given: Plan | null = null) {
  const bout = measuredBout({ exercise: 'curl', reps: times(4, { stretchedHold: 1 }) });
  return scoreMeasured([{ ...bout, reps: bout.reps.map(change) }], { plan: given }).bouts[0]!.reps;
}

describe('scoreRep', () => {
  const stickingRegion = { startSeconds: 0.3, endSeconds: 0.5, degrees: 70 };

  it('reports a sticking region only of explosive or free lifts', () => {
    const withRegion = (rep: MeasuredRep) => ({ ...rep, stickingRegion });
    expect(scored(withRegion)[0]!.stickingRegion).toEqual(stickingRegion);
    expect(scored(withRegion, plan('2-0-X-0'))[0]!.stickingRegion).toEqual(stickingRegion);
    expect(scored(withRegion, plan('2-0-1-0'))[0]!.stickingRegion).toBeNull();
    expect(scored((rep) => rep)[0]!.stickingRegion).toBeNull();
  });

  it('passes trunk swing on as it was measured', () => {
    expect(scored((rep) => ({ ...rep, trunkSwingDegrees: 12 }))[0]!.trunkSwingDegrees).toBe(12);
    expect(scored((rep) => rep)[0]!.trunkSwingDegrees).toBeNull();
  });

  it('halves no move whose middle was not seen, and keeps stalls', () => {
    const stall = { startSeconds: 0.4, endSeconds: 0.7, degrees: 60 };
    const [first] = scored((rep) => ({
      ...rep,
      phases: rep.phases.map((phase) => ({ ...phase, middleSeconds: null, stalls: [stall] })),
    }));
    const lift = first!.phases.find((phase) => phase.kind === 'concentric')!;
    expect(lift).toMatchObject({ firstHalfSeconds: null, secondHalfSeconds: null, stalls: [stall] });
    expect(first!.phases.find((phase) => phase.kind === 'stretched-hold')!.stalls).toBeUndefined();
  });

  it('gives a cut rep no range of the baseline and no speed', () => {
    const reps = scored((rep) => rep).length;
    expect(reps).toBe(4);
    const cut = scored((rep) => ({ ...rep, complete: false, eccentricExcursion: null }));
    expect(cut[0]).toMatchObject({ complete: false, range: null, concentricSpeedDegreesPerSecond: null });
  });

  it('takes a rep without phases for nothing that lasts', () => {
    const [only] = scored((rep) => ({ ...rep, phases: [] }));
    expect(only).toMatchObject({ startSeconds: 0, endSeconds: 0, phases: [] });
  });
});
