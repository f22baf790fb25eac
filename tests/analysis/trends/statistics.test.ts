import fc from 'fast-check';
import { mean, sampleStandardDeviation } from 'simple-statistics';
import { describe, expect, it } from 'vitest';
import { blandAltman } from '../../../analysis/trends/blandAltman.js';
import {
  normalReach,
  studentReach,
  twoSidedNormalProbability,
} from '../../../analysis/trends/distributions.js';
import { mannKendall } from '../../../analysis/trends/mannKendall.js';
import { theilSen } from '../../../analysis/trends/theilSen.js';
import { MAVRO, NORRIS, PEAK_FLOW, SEN_1968, TIED_SERIES } from '../../../fixtures/published/statistics.js';

describe('distributions', () => {
  // scipy 1.17.1: scipy.stats.norm.ppf, scipy.stats.t.ppf, 2 * norm.cdf.
  it('equals scipy', () => {
    expect(normalReach()).toBeCloseTo(1.959963984540054, 9);
    expect(studentReach(16)).toBeCloseTo(2.1199052992212546, 7);
    expect(studentReach(7.3)).toBeCloseTo(2.345066736547703, 6);
    expect(studentReach(1)).toBeCloseTo(12.706204736174694, 6);
    expect(studentReach(Number.POSITIVE_INFINITY)).toBe(normalReach());
    expect(twoSidedNormalProbability(-3.003757046)).toBeCloseTo(0.002666681793005438, 10);
    expect(twoSidedNormalProbability(0)).toBe(1);
  });
});

describe('theilSen', () => {
  it('gives slope, intercept and 93 % interval of Sen 1968', () => {
    const line = theilSen(SEN_1968.x, SEN_1968.y, 0.93)!;
    expect(line.slope).toBeCloseTo(4, 12);
    expect(line.intercept).toBeCloseTo(4, 12);
    expect(line.interval[0]).toBeCloseTo(26 / 7, 12);
    expect(line.interval[1]).toBeCloseTo(35 / 8, 12);
  });

  // scipy 1.17.1, scipy.stats.theilslopes on the Norris data of NIST StRD and on the tied series.
  it('equals scipy on the Norris data and with ties', () => {
    const norris = theilSen(NORRIS.x, NORRIS.y)!;
    expect(norris.slope).toBeCloseTo(1.00219683656, 10);
    expect(norris.intercept).toBeCloseTo(-0.06401581722, 8);
    expect(norris.interval[0]).toBeCloseTo(1.00111532456, 10);
    expect(norris.interval[1]).toBeCloseTo(1.0030534351, 10);
    const tied = theilSen(
      TIED_SERIES.map((_, index) => index),
      TIED_SERIES,
    )!;
    expect(tied.slope).toBeCloseTo(0.714285714, 8);
    expect(tied.interval).toEqual([0.5, 1]);
  });

  // scipy's own documentation case: theilslopes([0, 1, 1]) gives 0.5 and 0.5.
  it('reads short series, and gives nothing without two places', () => {
    expect(theilSen([0, 1, 2], [0, 1, 1])!.slope).toBe(0.5);
    expect(theilSen([0, 1, 2], [0, 1, 1])!.intercept).toBe(0.5);
    expect(theilSen([3, 3, 3], [1, 2, 3])).toBeNull();
    expect(theilSen([1], [1])).toBeNull();
  });

  it('is near the certified least-squares line of Norris (NIST StRD), whose residuals are well behaved', () => {
    expect(theilSen(NORRIS.x, NORRIS.y)!.slope).toBeCloseTo(NORRIS.certifiedSlope, 3);
  });

  it('shifts and scales with the values', () => {
    fc.assert(
      fc.property(
        fc.array(fc.integer({ min: -100, max: 100 }), { minLength: 3, maxLength: 12 }),
        fc.integer({ min: -50, max: 50 }),
        fc.integer({ min: 1, max: 9 }),
        (values, shift, scale) => {
          const x = values.map((_, index) => index);
          const plain = theilSen(x, values)!;
          const moved = theilSen(
            x,
            values.map((value) => value * scale + shift),
          )!;
          expect(moved.slope).toBeCloseTo(plain.slope * scale, 8);
          expect(moved.interval[0]).toBeCloseTo(plain.interval[0] * scale, 8);
          expect(moved.interval[0]).toBeLessThanOrEqual(moved.slope);
          expect(moved.interval[1]).toBeGreaterThanOrEqual(moved.slope);
        },
      ),
    );
  });
});

describe('mannKendall', () => {
  it('gives the score, variance and exact probability of the Sen 1968 series', () => {
    const test = mannKendall(SEN_1968.y);
    expect(test.score).toBe(21);
    expect(test.variance).toBeCloseTo(44.333333, 6);
    expect(test.deviate).toBeCloseTo(3.003757046, 8);
    // scipy.stats.kendalltau(method='exact') for seven values in order.
    expect(test.probability).toBeCloseTo(0.000396825, 8);
    expect(test.method).toBe('exact');
  });

  // The small example of Gilbert 1987 (from memory); figures by scipy.
  it('gives the small example 10 15 14 20', () => {
    const test = mannKendall([10, 15, 14, 20]);
    expect(test.score).toBe(4);
    expect(test.variance).toBeCloseTo(26 / 3, 12);
    expect(test.deviate).toBeCloseTo(1.019049331, 8);
    expect(test.probability).toBeCloseTo(1 / 3, 12);
  });

  // Variance with ties as in the trend package of CRAN; figures by scipy and numpy.
  it('corrects for ties', () => {
    const test = mannKendall(TIED_SERIES);
    expect(test.score).toBe(35);
    expect(test.variance).toBeCloseTo(123, 12);
    expect(test.deviate).toBeCloseTo(3.065676758, 8);
    expect(test.probability).toBeCloseTo(0.00217178, 7);
    expect(test.method).toBe('normal');
  });

  it('finds nothing in a constant series', () => {
    expect(mannKendall([2, 2, 2, 2])).toMatchObject({ score: 0, deviate: 0, probability: 1 });
  });

  it('turns round with the series and does not see monotone stretching', () => {
    fc.assert(
      fc.property(fc.array(fc.integer({ min: -9, max: 9 }), { minLength: 2, maxLength: 14 }), (values) => {
        const test = mannKendall(values);
        const reversed = mannKendall([...values].reverse());
        expect(reversed.score).toBe(test.score === 0 ? 0 : -test.score);
        expect(reversed.probability).toBeCloseTo(test.probability, 12);
        expect(mannKendall(values.map((value) => Math.exp(value / 3))).score).toBe(test.score);
      }),
    );
  });
});

describe('blandAltman', () => {
  // Bland and Altman 1986, peak flow by two meters; figures computed from the published data with numpy,
  // the paper prints -2.1, 38.8 and -79.7 to 75.5 with limits at 2 SD.
  it('gives bias, limits and their intervals of the 1986 paper', () => {
    const agreement = blandAltman(PEAK_FLOW.wrightFirst, PEAK_FLOW.miniFirst)!;
    expect(agreement.pairs).toBe(17);
    expect(agreement.bias).toBeCloseTo(-2.1176470588235294, 10);
    expect(agreement.standardDeviation).toBeCloseTo(38.76512987360738, 10);
    // The reference values use 1.96; the library's 1.959964 moves them in the third decimal.
    expect(agreement.limits[0]).toBeCloseTo(-78.097301611094, 2);
    expect(agreement.limits[1]).toBeCloseTo(73.86200749344692, 2);
    expect(agreement.biasInterval[0]).toBeCloseTo(-22.0488, 3);
    expect(agreement.biasInterval[1]).toBeCloseTo(17.8135, 3);
    // The paper's printed intervals are those of the 2 SD limits; ours stand at 1.96 SD with half width t × 16.2846.
    expect(agreement.lowerLimitInterval[1] - agreement.limits[0]).toBeCloseTo(2.1199052992 * 16.284611795, 4);
    expect(agreement.upperLimitInterval[0]).toBeCloseTo(agreement.limits[1] - 2.1199052992 * 16.284611795, 4);
  });

  it('says nothing of fewer than three pairs', () => {
    expect(blandAltman([1, 2], [1, 3])).toBeNull();
  });
});

describe('the library used for means and spreads', () => {
  // NIST StRD, univariate, Mavro: certified mean and standard deviation.
  it('reaches the certified values of Mavro', () => {
    expect(mean([...MAVRO.values])).toBeCloseTo(MAVRO.certifiedMean, 12);
    expect(sampleStandardDeviation([...MAVRO.values])).toBeCloseTo(MAVRO.certifiedStandardDeviation, 12);
  });
});
