import { describe, expect, it } from 'vitest';
import { parseStage } from '../../../analysis/plan/stage.js';
import type { EarlierRange } from '../../../analysis/scoring/earlierRange.js';
import {
  findBaseline,
  isMovementOnly,
  isPartialRange,
  isShortened,
} from '../../../analysis/scoring/range.js';
import { measuredBout, type RepPlan, score, scoreMeasured, times } from './syntheticBout.js';

// A curl from 15 to 125 degrees: range 110.
const curls = (reps: readonly RepPlan[], input: Parameters<typeof score>[1] = {}) =>
  score([{ exercise: 'curl', reps }], input).bouts[0]!;

/** An earlier set of these curls, filmed as `score` films them. */
const earlier = (degrees: number): EarlierRange => ({
  side: 'left',
  facing: 'left',
  degreesOffSide: 5,
  stage: null,
  degrees,
  uncertaintyDegrees: 4,
});

describe('baseline', () => {
  it('is the median of the first three complete reps, whatever their range', () => {
    const bout = curls([
      { complete: false, contracted: 40 },
      { contracted: 115 },
      { contracted: 65 },
      { contracted: 125 },
      ...times(3, { contracted: 135 }),
    ]);
    expect(bout.summary.baselineRangeDegrees).toBe(100);
    expect(bout.reps.map((rep) => rep.range?.ofBaseline)).toEqual([null, 1, 0.5, 1.1, 1.2, 1.2, 1.2]);
  });

  it('falls back on history with fewer than three, else cannot tell', () => {
    expect(curls(times(2), { earlierRanges: [earlier(120)] }).summary).toMatchObject({
      baselineRangeDegrees: 120,
      baselineEarlierSets: 1,
    });
    expect(curls(times(3), { earlierRanges: [earlier(120)] }).summary).toMatchObject({
      baselineRangeDegrees: 110,
      baselineEarlierSets: null,
    });
    const unknown = curls([{}, { contracted: 40 }]);
    expect(unknown.summary.baselineRangeDegrees).toBeNull();
    expect(unknown.reps[1]!.range).toMatchObject({ degrees: 25, ofBaseline: null, shortened: false });
    expect(unknown.reps[1]!.partial).toBe(false);
  });

  it('has a smaller uncertainty than one rep: variance of a median of three normal values, 0.4487', () => {
    const { reps } = measuredBout({ exercise: 'curl', reps: times(3), uncertaintyDegrees: 4 });
    expect(findBaseline(reps, null, 2.4)!.uncertaintyDegrees).toBeCloseTo(3.2 * Math.sqrt(0.4487), 9);
    expect(findBaseline(reps, null, null)!.uncertaintyDegrees).toBeCloseTo(2.4 * Math.sqrt(0.4487), 9);
  });
});

describe('limits of range', () => {
  const baseline = {
    degrees: 100,
    uncertaintyDegrees: 0,
    sharedDegrees: null,
    ends: null,
    second: null,
    earlierSets: null,
  };
  const range = (degrees: number, uncertaintyDegrees: number) => ({ degrees, uncertaintyDegrees });

  // Of the stated ± six tenths differ from rep to rep; the rest is common to all reps and drops out.
  it('is shortened under 90 %, when the drop exceeds its uncertainty', () => {
    expect(isShortened(range(90, 2), baseline)).toBe(false);
    expect(isShortened(range(89.9, 2), baseline)).toBe(true);
    expect(isShortened(range(85, 25.1), baseline)).toBe(false);
    expect(isShortened(range(85, 24.9), baseline)).toBe(true);
    expect(isShortened(range(85, 24.9), { ...baseline, uncertaintyDegrees: 10 })).toBe(false);
    // Known to share 20 degrees of 25, the reps differ by 15 at most; sharing nothing, by all of 25.
    expect(isShortened(range(85, 24.9), { ...baseline, sharedDegrees: 20 })).toBe(true);
    expect(isShortened(range(85, 25.1), { ...baseline, sharedDegrees: 20 })).toBe(false);
    expect(isShortened(range(85, 16), { ...baseline, sharedDegrees: 0 })).toBe(false);
  });

  it('is partial under 60 %, and mere movement under 30 %, beyond uncertainty', () => {
    expect(isPartialRange(range(58.9, 2), baseline)).toBe(false);
    expect(isPartialRange(range(58.7, 2), baseline)).toBe(true);
    expect(isMovementOnly(range(28.9, 2), baseline)).toBe(false);
    expect(isMovementOnly(range(28.7, 2), baseline)).toBe(true);
  });
});

describe('shortened reps', () => {
  it.each([
    [{ contracted: 105 }, 'contracted'],
    [{ stretched: 35 }, 'stretched'],
    [{ stretched: 25, contracted: 110 }, 'both'],
  ] as const)('%o shortened at the %s end', (rep, end) => {
    const bout = curls([...times(5), rep, rep]);
    expect(bout.reps[5]!.range).toMatchObject({ shortened: true, shortenedAt: end });
    expect(bout.summary.firstShortenedRep).toBe(6);
  });

  it('knows the ends of an exercise whose concentric lowers the angle', () => {
    const shallow = score([
      {
        exercise: 'squat',
        side: 'both',
        reps: [...times(5, { stretched: 120 }), ...times(2, { stretched: 100 })],
      },
    ]).bouts[0]!;
    expect(shallow.reps[5]!.range).toMatchObject({ shortened: true, shortenedAt: 'stretched' });
    const lockedOut = score([
      { exercise: 'squat', side: 'both', reps: [...times(5), ...times(2, { contracted: 30 })] },
    ]).bouts[0]!;
    expect(lockedOut.reps[5]!.range?.shortenedAt).toBe('contracted');
  });

  it('counts from the first of two in a row, or from the final rep', () => {
    const short = { contracted: 105 };
    expect(curls([...times(3), short, ...times(3)]).summary.firstShortenedRep).toBeNull();
    expect(curls([...times(3), short, ...times(2), short, short]).summary.firstShortenedRep).toBe(7);
    expect(curls([...times(5), short]).summary.firstShortenedRep).toBe(6);
  });

  it('gives no end where the baseline is only a number from history', () => {
    const bout = curls(times(2, { contracted: 95 }), { earlierRanges: [earlier(110)] });
    expect(bout.reps[0]!.range).toMatchObject({ shortened: true, shortenedAt: null });
  });

  it('lets the shoulder alone shorten a row', () => {
    const bout = measuredBout({ exercise: 'single-arm-row', reps: times(7) });
    const reps = bout.reps.map((rep, index) => ({
      ...rep,
      secondRange: { degrees: index < 5 ? 90 : 70, uncertaintyDegrees: 3 },
    }));
    const rows = scoreMeasured([{ ...bout, reps }]).bouts[0]!;
    expect(rows.reps.map((rep) => rep.range?.shortened)).toEqual([
      ...[false, false, false, false, false],
      ...[true, true],
    ]);
    expect(rows.summary.firstShortenedRep).toBe(6);
    // The elbow lost nothing, so its ends cannot tell where.
    expect(rows.reps[6]!.range?.shortenedAt).toBeNull();
  });
});

describe('partial and failed reps', () => {
  it('counts partial reps apart and keeps them', () => {
    const bout = curls([...times(4), { contracted: 70 }, ...times(2)]);
    expect(bout.reps[4]).toMatchObject({ partial: true, failed: false, complete: true });
    expect(bout.summary).toMatchObject({ completeReps: 6, partialReps: 1, failedReps: 0 });
  });

  it('calls the last rep failed when the lift was not made, and the same rep earlier partial', () => {
    const failed = { contracted: 70 };
    expect(curls([...times(4), failed]).summary).toMatchObject({
      completeReps: 4,
      partialReps: 0,
      failedReps: 1,
    });
    expect(curls([...times(4), failed, {}]).summary).toMatchObject({ partialReps: 1, failedReps: 0 });
    // A full squat down, lifted only a third of the way.
    const squat = score([{ exercise: 'squat', side: 'both', reps: [...times(4), { liftedTo: 65 }] }])
      .bouts[0]!;
    expect(squat.reps[4]).toMatchObject({ failed: true, partial: false });
    expect(squat.reps[4]!.range).toMatchObject({ shortened: true });
  });

  it('calls a last rep partial when it was lifted but not lowered', () => {
    const bout = measuredBout({ exercise: 'curl', reps: times(5) });
    const reps = bout.reps.map((rep, index) =>
      index < 4 ? rep : { ...rep, eccentricExcursion: { degrees: 50, uncertaintyDegrees: 2 } },
    );
    const scored = scoreMeasured([{ ...bout, reps }]).bouts[0]!;
    expect(scored.reps[4]).toMatchObject({ partial: true, failed: false });
  });

  it('finds no fault in planned partials', () => {
    const plan = { stages: [parseStage('2-0-1-0:4'), parseStage('1-0-1-0:4:partials')], restSeconds: null };
    const bout = curls([...times(4), ...times(4, { eccentric: 1, contracted: 70 })], { plan });
    expect(bout.reps[7]).toMatchObject({ partial: true, failed: false, stage: 2 });
    expect(bout.summary).toMatchObject({ partialReps: 4, failedReps: 0, firstShortenedRep: null });
  });

  it('drops mere movement under 30 % of the range and numbers on', () => {
    const bout = curls([...times(4), { contracted: 40 }, ...times(2)]);
    expect(bout.reps).toHaveLength(6);
    expect(bout.reps.at(-1)!.number).toBe(6);
  });

  it('judges nothing where the view gives no degrees', () => {
    const bout = score([{ exercise: 'curl', reps: times(5), uncertaintyDegrees: null }]).bouts[0]!;
    expect(bout.reps.every((rep) => rep.range === null && !rep.partial && !rep.failed)).toBe(true);
    expect(bout.reps[0]!.concentricSpeedDegreesPerSecond).toBeNull();
    expect(bout.summary).toMatchObject({ completeReps: 5, firstShortenedRep: null, rangeTrend: null });
  });
});
