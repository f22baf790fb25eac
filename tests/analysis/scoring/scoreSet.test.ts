import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { parseStage } from '../../../analysis/plan/stage.js';
import type { BoutReport } from '../../../analysis/report/setReport.js';
import { type BoutPlan, type RepPlan, score, times } from './syntheticBout.js';

const seconds = (least: number, most: number) => fc.double({ min: least, max: most, noNaN: true });

const repPlan: fc.Arbitrary<RepPlan> = fc.record({
  eccentric: seconds(0.3, 8),
  stretchedHold: seconds(0, 3),
  concentric: seconds(0.3, 4),
  contractedHold: seconds(0, 3),
  contracted: seconds(40, 120),
});

const set = (reps: readonly RepPlan[], changes: Partial<BoutPlan> = {}): BoutPlan => ({
  exercise: 'single-arm-row',
  reps,
  side: 'left',
  ...changes,
});

const plan = { stages: [parseStage('3-0-1-1:3-6'), parseStage('1-0-X-0')], restSeconds: 60 };

/** A bout without its times, which are the only thing a shift may change. */
function timeless(bout: BoutReport) {
  return {
    side: bout.side,
    completeReps: bout.summary.completeReps,
    partialReps: bout.summary.partialReps,
    lastControlledRep: bout.summary.lastControlledRep,
    firstShortenedRep: bout.summary.firstShortenedRep,
    switches: bout.summary.stageSwitches,
    reps: bout.reps.map((rep) => ({
      number: rep.number,
      stage: rep.stage,
      partial: rep.partial,
      failed: rep.failed,
      shortenedAt: rep.range?.shortenedAt,
      verdicts: rep.phases.map((phase) => phase.verdict),
    })),
  };
}

const someReps = fc.array(repPlan, { minLength: 1, maxLength: 10 });

describe('scoreSet', () => {
  it('shifts every time when the film is shifted, and nothing else', () => {
    fc.assert(
      // Whole sixteenths keep the sums exact, so that no verdict flips on rounding.
      fc.property(someReps, fc.integer({ min: 0, max: 1600 }), (reps, sixteenths) => {
        const shift = sixteenths / 16;
        const rounded = reps.map((rep) => inSixteenths(rep));
        const before = score([set(rounded)], { plan }).bouts[0]!;
        const after = score([set(rounded, { startSeconds: shift })], { plan }).bouts[0]!;
        expect(timeless(after)).toEqual(timeless(before));
        expect(after.startSeconds).toBe(before.startSeconds + shift);
        expect(after.endSeconds).toBe(before.endSeconds + shift);
        for (const [index, rep] of after.reps.entries()) {
          expect(rep.startSeconds).toBe(before.reps[index]!.startSeconds + shift);
          for (const [place, phase] of rep.phases.entries()) {
            expect(phase.endSeconds).toBe(before.reps[index]!.phases[place]!.endSeconds + shift);
            expect(phase.seconds).toBe(before.reps[index]!.phases[place]!.seconds);
          }
        }
      }),
    );
  });

  it('swaps sides and nothing else when the lifter is mirrored', () => {
    fc.assert(
      fc.property(someReps, (reps) => {
        const left = score([set(reps)], { plan }).bouts[0]!;
        const right = score([set(reps, { side: 'right' })], { plan }).bouts[0]!;
        expect(right.reps.every((rep) => rep.side === 'right')).toBe(true);
        expect({ ...timeless(right), side: 'left' }).toEqual(timeless(left));
      }),
    );
  });

  it('doubles every phase when every duration is doubled', () => {
    fc.assert(
      fc.property(someReps, (reps) => {
        const doubled = reps.map((rep) => ({
          ...rep,
          eccentric: rep.eccentric! * 2,
          stretchedHold: rep.stretchedHold! * 2,
          concentric: rep.concentric! * 2,
          contractedHold: rep.contractedHold! * 2,
        }));
        const once = score([set(reps)]).bouts[0]!;
        const twice = score([set(doubled)]).bouts[0]!;
        expect(twice.summary.timeUnderTensionSeconds).toBeCloseTo(
          once.summary.timeUnderTensionSeconds * 2,
          6,
        );
        const lengths = (bout: BoutReport) =>
          bout.reps.flatMap((rep) => rep.phases.map((phase) => phase.seconds));
        for (const [index, length] of lengths(twice).entries()) {
          expect(length).toBeCloseTo(lengths(once)[index]! * 2, 6);
        }
      }),
    );
  });

  it('keeps what belongs together in order and inside its limits', () => {
    fc.assert(
      fc.property(someReps, (reps) => {
        const { bouts } = score([set(reps)], { plan });
        for (const bout of bouts) {
          const { summary } = bout;
          expect(summary.completeReps + summary.partialReps + summary.failedReps).toBe(bout.reps.length);
          expect(bout.reps.map((rep) => rep.number)).toEqual(bout.reps.map((_, index) => index + 1));
          if (summary.deliveredLoweringShare !== null) {
            expect(summary.deliveredLoweringShare).toBeGreaterThanOrEqual(0);
            expect(summary.deliveredLoweringShare).toBeLessThanOrEqual(1);
          }
          const stages = bout.reps.map((rep) => rep.stage!);
          expect(stages).toEqual([...stages].sort((first, second) => first - second));
        }
      }),
    );
  });

  it('ends each bout with its last move', () => {
    const { bouts, rests } = score(
      [
        set(times(3, { stretchedHold: 1 }), { startSeconds: 0 }),
        set(times(3, { stretchedHold: 1 }), { side: 'right', startSeconds: 50 }),
      ],
      { plan },
    );
    expect(bouts.map((bout) => bout.side)).toEqual(['left', 'right']);
    // Three reps of 1 + 2 s with a pause of 1 s after the first two.
    expect(bouts[0]!.endSeconds).toBe(11);
    expect(rests).toEqual([
      { kind: 'side-change', startSeconds: 11, endSeconds: 50, seconds: 39, plannedSeconds: null },
    ]);
  });

  it('has nothing to say of nothing', () => {
    expect(score([])).toEqual({ bouts: [], rests: [], symmetry: null });
    expect(score([set([])])).toEqual({ bouts: [], rests: [], symmetry: null });
  });
});

function inSixteenths(rep: RepPlan): RepPlan {
  const round = (value: number | undefined) => Math.round((value ?? 0) * 16) / 16;
  return {
    ...rep,
    eccentric: round(rep.eccentric),
    stretchedHold: round(rep.stretchedHold),
    concentric: round(rep.concentric),
    contractedHold: round(rep.contractedHold),
  };
}
