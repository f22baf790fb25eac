import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { slopeOf, type TimedValue } from '../../../core/pose/slope.js';

const sampled = (curve: (seconds: number) => number, standardError = 1): TimedValue[] =>
  Array.from({ length: 41 }, (_, index) => ({
    seconds: index / 10,
    value: curve(index / 10),
    standardError,
  }));

describe('slope', () => {
  // First six points of Norris, NIST Statistical Reference Datasets; slope and its error by the textbook formulae
  // of ordinary least squares (NIST/SEMATECH e-Handbook 4.4.3.1).
  test('of six points with equal errors is that of ordinary least squares', () => {
    const x = [0.2, 337.4, 118.2, 884.6, 10.1, 226.5];
    const y = [0.1, 338.8, 118.1, 888.0, 9.2, 228.1];
    const values = x.map((seconds, index) => ({ seconds, value: y[index]!, standardError: 2 }));
    const meanX = x.reduce((sum, one) => sum + one, 0) / 6;
    const meanY = y.reduce((sum, one) => sum + one, 0) / 6;
    const spread = x.reduce((sum, one) => sum + (one - meanX) ** 2, 0);
    const shared = x.reduce((sum, one, index) => sum + (one - meanX) * (y[index]! - meanY), 0);
    expect(slopeOf(values)!.slope).toBeCloseTo(shared / spread, 12);
    expect(slopeOf(values)!.standardError).toBeCloseTo(2 / Math.sqrt(spread), 12);
  });

  test('of a straight line is its slope, whatever the errors', () => {
    fc.assert(
      fc.property(
        fc.double({ min: -50, max: 50, noNaN: true }),
        fc.array(fc.double({ min: 0.1, max: 5, noNaN: true }), { minLength: 3, maxLength: 12 }),
        (slope, errors) => {
          const values = errors.map((standardError, index) => ({
            seconds: index / 7,
            value: 3 + (slope * index) / 7,
            standardError,
          }));
          expect(slopeOf(values)!.slope).toBeCloseTo(slope, 6);
        },
      ),
    );
  });

  test('needs three values', () => {
    expect(slopeOf(sampled((seconds) => seconds).slice(0, 2))).toBeNull();
  });
});
