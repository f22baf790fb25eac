import { describe, expect, test } from 'vitest';
import type { BoutReport } from '../../../analysis/report/setReport.js';
import { boutFigures } from '../../../cli/history/sets/figures.js';
import { NO_DETAILS, type SetDetails } from '../../../cli/history/sets/savedSet.js';
import { likeTheLatest, type TrackedBout } from '../../../cli/history/weeks/likeSets.js';
import { inventedReport } from './invented.js';

/** Three slow reps, then as many quick ones in a stage of their own, with less range. */
function twoStages() {
  const report = inventedReport({
    eccentricSeconds: [4, 3.8, 3.9, 1, 1.1, 0.9],
    rangeDegrees: [90, 92, 91, 70, 70, 70],
  });
  const bout: BoutReport = {
    ...report.bouts[0]!,
    reps: report.bouts[0]!.reps.map((rep, index) => ({ ...rep, stage: index < 3 ? 1 : 2 })),
  };
  return { ...report, bouts: [bout] };
}

describe('the figures that are followed', () => {
  test('lowering and range are those of one stage: quick reps do not blur slow ones', () => {
    const [figures] = boutFigures(twoStages());
    expect(figures?.medianEccentricSeconds).toBeCloseTo(3.9, 9);
    expect(figures).toMatchObject({ medianRangeDegrees: 91, completeReps: 6 });
  });

  test('where the first stage has no seconds in the plan, the stage that has', () => {
    const report = twoStages();
    const reps = report.bouts[0]!.reps.map((rep, index) =>
      index >= 3
        ? rep
        : { ...rep, phases: rep.phases.map((phase) => ({ ...phase, plannedSeconds: 'X' as const })) },
    );
    const [figures] = boutFigures({ ...report, bouts: [{ ...report.bouts[0]!, reps }] });
    expect(figures).toMatchObject({ medianEccentricSeconds: 1, medianRangeDegrees: 70 });
  });
});

describe('like loads', () => {
  const [figures] = boutFigures(inventedReport());
  const kilograms = (value: number) => ({ value, unit: 'kg' as const });
  const bout = (details: Partial<SetDetails>): TrackedBout => ({
    set: {
      plan: null,
      invented: false,
      details: { ...NO_DETAILS, ...details },
    } as unknown as TrackedBout['set'],
    bout: figures!,
  });
  const alike = (one: Partial<SetDetails>, other: Partial<SetDetails>) =>
    likeTheLatest([bout(one), bout(other)]).bouts.length === 2;

  test('stage by stage, a load said once standing for every stage', () => {
    const drop = { load: kilograms(5), stageLoads: [kilograms(5), kilograms(4)] };
    expect(alike(drop, { ...drop })).toBe(true);
    expect(alike(drop, { load: kilograms(5) })).toBe(false);
    expect(alike(drop, { load: kilograms(5), stageLoads: [kilograms(5), kilograms(5)] })).toBe(false);
    expect(
      alike({ load: kilograms(5) }, { load: kilograms(5), stageLoads: [kilograms(5), kilograms(5)] }),
    ).toBe(true);
  });

  test('within a twentieth, also across units; none said is like none said', () => {
    expect(alike({ load: kilograms(20) }, { load: kilograms(21) })).toBe(true);
    expect(alike({ load: kilograms(20) }, { load: kilograms(22) })).toBe(false);
    expect(alike({ load: kilograms(20) }, { load: { value: 44, unit: 'lb' } })).toBe(true);
    expect(alike({ load: kilograms(20) }, {})).toBe(false);
    expect(alike({}, {})).toBe(true);
  });
});
