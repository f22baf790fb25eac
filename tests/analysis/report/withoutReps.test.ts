import { describe, expect, it } from 'vitest';
import { findExercise } from '../../../analysis/exercises/catalogue.js';
import { parseStage } from '../../../analysis/plan/stage.js';
import { setReportSchema } from '../../../analysis/report/setReport.js';
import { withoutReps } from '../../../analysis/report/withoutReps.js';
import { times } from '../scoring/syntheticBout.js';
import { sampleReport } from './sampleReport.js';

const plan = { stages: [parseStage('4-0-1-0:6')], restSeconds: null };
const report = sampleReport(
  [
    { exercise: 'single-arm-row', side: 'left', reps: [...times(5, { eccentric: 4 }), { eccentric: 1 }] },
    { exercise: 'single-arm-row', side: 'right', reps: times(6, { eccentric: 4 }), startSeconds: 60 },
  ],
  plan,
);
const row = findExercise('single-arm-row');

describe('withoutReps', () => {
  it('numbers the others anew and works the figures out again', () => {
    const last = report.bouts[0]!.reps[5]!;
    const amended = withoutReps(report, [{ side: 'left', atSeconds: last.startSeconds + 0.5 }], row);
    const { summary, reps, endSeconds } = amended.bouts[0]!;
    expect(reps.map((rep) => rep.number)).toEqual([1, 2, 3, 4, 5]);
    expect(summary).toMatchObject({
      completeReps: 5,
      deliveredLoweringSeconds: 20,
      plannedLoweringSeconds: 20,
      lastControlledRep: 5,
      baselineRangeDegrees: report.bouts[0]!.summary.baselineRangeDegrees,
    });
    expect(endSeconds).toBe(report.bouts[0]!.reps[4]!.phases.at(-2)!.endSeconds);
    expect(amended.bouts[1]).toEqual(report.bouts[1]);
    expect(amended.headline).not.toBe(report.headline);
    expect(setReportSchema.safeParse(amended).success).toBe(true);
  });

  it('leaves a report alone where no rep is meant, or the other side is', () => {
    expect(withoutReps(report, [], row)).toBe(report);
    expect(withoutReps(report, [{ side: 'right', atSeconds: 2 }], row)).toBe(report);
  });

  it('drops a bout that loses all its reps, and keeps the headline where the exercise is not known', () => {
    const dropped = report.bouts[0]!.reps.map((rep) => ({
      side: rep.side,
      atSeconds: rep.startSeconds + 0.1,
    }));
    const amended = withoutReps(report, dropped, null);
    expect(amended.bouts.map((bout) => bout.side)).toEqual(['right']);
    expect(amended.symmetry).toBeNull();
    expect(amended.headline).toBe(report.headline);
  });
});
