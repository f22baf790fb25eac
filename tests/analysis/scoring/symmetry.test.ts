import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { meanDifference } from '../../../analysis/scoring/meanDifference.js';
import { type RepPlan, score, times } from './syntheticBout.js';

const rows = (left: readonly RepPlan[], right: readonly RepPlan[], uncertaintySeconds = 0.05) =>
  score([
    { exercise: 'single-arm-row', side: 'left', reps: left, startSeconds: 0, uncertaintySeconds },
    { exercise: 'single-arm-row', side: 'right', reps: right, startSeconds: 100, uncertaintySeconds },
  ]).symmetry!;

describe('meanDifference', () => {
  // Welch's t, scipy 1.17.1:
  // ttest_ind([20.4,24.2,15.4,21.4,20.2,18.5,21.5], [20.2,16.9,18.5,17.3,20.5], equal_var=False).confidence_interval().
  it('gives the interval of Welch', () => {
    const difference = meanDifference(
      { values: [20.4, 24.2, 15.4, 21.4, 20.2, 18.5, 21.5], uncertainties: [] },
      { values: [20.2, 16.9, 18.5, 17.3, 20.5], uncertainties: [] },
      [0, 0],
    )!;
    expect(difference.difference).toBeCloseTo(1.5485714285714267, 10);
    expect(difference.interval[0]).toBeCloseTo(-1.285836017492183, 6);
    expect(difference.interval[1]).toBeCloseTo(4.3829788746350395, 6);
  });

  // Two single measurements of standard error 4 each differ by 1.96 × sqrt(2) × 4 = 11.09 at least
  // (minimal detectable change, Weir and Vincent; Hopkins 2000).
  it('sees no less than the minimal detectable change', () => {
    const side = { values: [100], uncertainties: [0] };
    expect(meanDifference(side, side, [4 * 1.959963984540054, 4 * 1.959963984540054])!.visible).toBeCloseTo(
      11.09,
      2,
    );
  });

  it('borrows the spread of the other side for a lone value', () => {
    const alone = meanDifference(
      { values: [5], uncertainties: [0] },
      { values: [4, 4.5, 5], uncertainties: [0, 0, 0] },
      [0, 0],
    )!;
    expect(alone.interval[1] - alone.interval[0]).toBeGreaterThan(1);
    expect(
      meanDifference({ values: [], uncertainties: [] }, { values: [1], uncertainties: [0] }, [0, 0]),
    ).toBeNull();
    const exact = { values: [3], uncertainties: [0] };
    expect(meanDifference(exact, exact, [0, 0])!.interval).toEqual([0, 0]);
  });
});

describe('compareSides', () => {
  it('needs both sides', () => {
    expect(score([{ exercise: 'single-arm-row', side: 'left', reps: times(5) }]).symmetry).toBeNull();
    expect(score([{ exercise: 'squat', side: 'both', reps: times(5) }]).symmetry).toBeNull();
  });

  it('says so where the camera saw no difference', () => {
    const symmetry = rows(times(8), times(8));
    expect(symmetry.firstSide).toBe('left');
    expect(symmetry.measures.map((measure) => measure.measure)).toEqual([
      'range',
      'eccentric-seconds',
      'concentric-seconds',
      'reps',
    ]);
    expect(symmetry.measures.every((measure) => !measure.different && measure.ratio === 1)).toBe(true);
    expect(symmetry.sentence).toBe('No difference this camera could see.');
  });

  // 40 against 36: ratio 40/36 left over right (limb symmetry index 90 % the other way round).
  it('gives the ratio left over right', () => {
    const symmetry = rows(times(8, { eccentric: 4 }), times(8, { eccentric: 3.6 }));
    const eccentric = symmetry.measures.find((measure) => measure.measure === 'eccentric-seconds')!;
    expect(eccentric.ratio).toBeCloseTo(40 / 36, 12);
    expect(eccentric.difference).toBeCloseTo(0.4, 12);
    expect(eccentric.different).toBe(true);
    expect(symmetry.sentence).toBe('The left lowering took 0.4 s longer (0.3 to 0.5 s).');
  });

  it('calls nothing different within what the camera can tell', () => {
    const steady = rows(times(8, { eccentric: 4 }), times(8, { eccentric: 3.92 }), 0.001);
    expect(steady.measures.some((measure) => measure.different)).toBe(false);
    const coarse = rows(times(8, { eccentric: 4 }), times(8, { eccentric: 3.6 }), 0.9);
    expect(coarse.measures.some((measure) => measure.different)).toBe(false);
  });

  it('compares range with the camera’s own error, which averaging does not lessen', () => {
    const near = rows(times(8, { contracted: 100 }), times(8, { contracted: 90 }));
    expect(near.measures[0]).toMatchObject({ measure: 'range', difference: 10, different: false });
    const far = rows(times(8, { contracted: 105 }), times(8, { contracted: 80 }));
    expect(far.measures[0]).toMatchObject({ measure: 'range', difference: 25, different: true });
    expect(far.sentence).toMatch(/^The left side moved 25° further \(\d+ to \d+°\)\.$/);
  });

  it('counts reps exactly, except those the film cuts', () => {
    const fewer = rows(times(8), times(6));
    expect(fewer.sentence).toBe('Left did 8 reps, right 6; otherwise no difference this camera could see.');
    const cut = rows(times(8), [...times(7), { complete: false }]);
    expect(cut.measures.at(-1)).toMatchObject({ difference: 1, interval: [0, 1], different: false });
  });

  it('compares nothing where a side has no whole rep', () => {
    expect(
      score([
        { exercise: 'single-arm-row', side: 'left', reps: times(3) },
        { exercise: 'single-arm-row', side: 'right', reps: [{ complete: false }], startSeconds: 60 },
      ]).symmetry,
    ).toBeNull();
  });

  it('compares times alone where the view gives no degrees, and says which side went first', () => {
    const { symmetry } = score([
      { exercise: 'single-arm-row', side: 'right', reps: times(5), uncertaintyDegrees: null },
      { exercise: 'single-arm-row', side: 'left', reps: times(5), startSeconds: 60 },
    ]);
    expect(symmetry!.firstSide).toBe('right');
    expect(symmetry!.measures.map((measure) => measure.measure)).not.toContain('range');
  });

  it('changes its signs and nothing else when the sides are swapped', () => {
    const repPlan = fc.record({
      eccentric: fc.double({ min: 1, max: 6, noNaN: true }),
      concentric: fc.double({ min: 0.4, max: 3, noNaN: true }),
      contracted: fc.double({ min: 85, max: 115, noNaN: true }),
    });
    const side = fc.array(repPlan, { minLength: 4, maxLength: 10 });
    fc.assert(
      fc.property(side, side, (first, second) => {
        const plain = rows(first, second).measures;
        const swapped = rows(second, first).measures;
        for (const [index, measure] of plain.entries()) {
          expect(swapped[index]!.difference).toBeCloseTo(-measure.difference, 9);
          expect(swapped[index]!.interval[0]).toBeCloseTo(-measure.interval[1], 9);
          expect(swapped[index]!.different).toBe(measure.different);
        }
      }),
      { numRuns: 50 },
    );
  });

  it('finds no difference between identical sides in at least 95 % of noisy tracks', () => {
    // Noise as large as stated: uncertainty is 1.96 standard deviations.
    let state = 12345;
    const uniform = () => {
      state = (state * 1664525 + 1013904223) % 4294967296;
      return (state + 0.5) / 4294967296;
    };
    const normal = () => Math.sqrt(-2 * Math.log(uniform())) * Math.cos(2 * Math.PI * uniform());
    const noisy = () =>
      times(8).map(() => ({
        eccentric: 3 + (0.08 * normal()) / 1.96,
        concentric: 1 + (0.08 * normal()) / 1.96,
        contracted: 100 + (2 * normal()) / 1.96,
      }));
    const runs = 400;
    let silent = 0;
    for (let run = 0; run < runs; run++) {
      if (rows(noisy(), noisy(), 0.08).sentence === 'No difference this camera could see.') silent++;
    }
    expect(silent / runs).toBeGreaterThanOrEqual(0.95);
  });
});
