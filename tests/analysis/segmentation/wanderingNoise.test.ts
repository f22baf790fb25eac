import { describe, expect, it } from 'vitest';
import { whitening } from '../../../analysis/segmentation/wanderingNoise.js';
import { randomStream } from '../../../fixtures/lifter/random.js';

describe('whitening', () => {
  const seconds = Float64Array.from({ length: 4000 }, (_, i) => i / 30 + 0.005 * Math.sin(i));
  const weights = new Float64Array(seconds.length).fill(1 / 0.6 ** 2);
  const wander = { deviation: 1.5, seconds: 0.2 };

  it('makes wandering errors independent, with standard deviation 1', () => {
    const random = randomStream(1, 'whitening');
    let slow = 0;
    const errors = seconds.map((at, i) => {
      const carry = i === 0 ? 0 : Math.exp(-(at - seconds[i - 1]!) / wander.seconds);
      slow = carry * slow + wander.deviation * Math.sqrt(1 - carry ** 2) * random.normal();
      return slow + 0.6 * random.normal();
    });
    const white = whitening(seconds, weights, wander).apply(errors);
    const correlation = (lag: number) => {
      let sum = 0;
      for (let i = lag; i < white.length; i++) sum += white[i]! * white[i - lag]!;
      return sum / (white.length - lag);
    };
    // Standard errors of these are about 1/√4000.
    expect(Math.abs(correlation(0) - 1)).toBeLessThan(0.08);
    for (const lag of [1, 2, 5, 12]) expect(Math.abs(correlation(lag))).toBeLessThan(0.06);
  });

  it('only scales errors that do not wander', () => {
    const values = seconds.map((_, i) => Math.cos(i));
    const white = whitening(seconds, weights, { deviation: 0, seconds: 0.2 }).apply(values);
    white.forEach((value, i) => {
      expect(value).toBeCloseTo(values[i]! / 0.6, 10);
    });
  });

  it('gives the generalised least squares weights of a covariance worked out by hand', () => {
    // Two samples one time constant apart, variance 1 + 1 each, covariance e⁻¹: the mean's variance is (2 + e⁻¹) / 2.
    const pair = whitening(Float64Array.of(0, 1), Float64Array.of(1, 1), { deviation: 1, seconds: 1 });
    const ones = pair.apply(Float64Array.of(1, 1));
    const information = ones[0]! ** 2 + ones[1]! ** 2;
    expect(1 / information).toBeCloseTo((2 + Math.exp(-1)) / 2, 10);
  });
});
