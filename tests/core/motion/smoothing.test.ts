import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import type { Samples } from '../../../core/motion/samples.js';
import { smoothSamples, splitAtGaps } from '../../../core/motion/smoothing.js';
import { knotSeconds, speedAt, valueAt } from '../../../core/motion/speedSpline.js';

/**
 * Angle of a bar with and without added noise and its true angular acceleration: Pezzack, Norman and Winter 1977,
 * as reprinted by Vint and Hinrichs 1996; radians, 0.0201 s apart. The noise has an RMS of 0.006304 rad.
 */
const PEZZACK = readFileSync(new URL('../../../fixtures/published/pezzack.txt', import.meta.url), 'utf8')
  .split('\n')
  .filter((line) => /^\s*\d/.test(line))
  .map((line) => line.trim().split(/\s+/).map(Number));

function samplesOf(seconds: readonly number[], values: readonly number[], error = 1): Samples {
  return {
    seconds: Float64Array.from(seconds),
    values: Float64Array.from(values),
    standardErrors: new Float64Array(seconds.length).fill(error),
  };
}

describe('the Pezzack benchmark', () => {
  const seconds = PEZZACK.map((row) => row[0]!);
  const noisy = PEZZACK.map((row) => (row[2]! * 180) / Math.PI);
  const [curve] = smoothSamples(samplesOf(seconds, noisy));

  it('finds the amount of noise', () => {
    const trueNoise = (0.006304 * 180) / Math.PI;
    expect(curve!.noise).toBeGreaterThan(0.6 * trueNoise);
    expect(curve!.noise).toBeLessThan(1.3 * trueNoise);
  });

  it('gives accelerations about as good as the best filters published for it', () => {
    // Root mean square errors over the inner samples, computed with scipy: unfiltered 10.72, Savitzky–Golay cubic over
    // 9 samples 5.68, Butterworth at its best cut-off (6 Hz, two passes) 4.92 rad/s².
    const errors = PEZZACK.slice(10, -10).map(([time, , , truth]) => {
      const dt = 0.02;
      const acceleration =
        (speedAt(curve!.spline, time! + dt) - speedAt(curve!.spline, time! - dt)) / (2 * dt);
      return (acceleration * Math.PI) / 180 - truth!;
    });
    const rms = Math.sqrt(errors.reduce((sum, error) => sum + error * error, 0) / errors.length);
    expect(rms).toBeLessThan(6);
  });
});

describe('smoothing', () => {
  const seconds = Array.from({ length: 150 }, (_, i) => i / 30);
  const swing = (time: number) => 60 - 50 * Math.cos(Math.PI * time);

  it('is not led astray by single wild samples', () => {
    const values = seconds.map((time, i) => swing(time) + (i % 25 === 7 ? 70 : 0));
    const [curve] = smoothSamples(samplesOf(seconds, values));
    for (const time of seconds.slice(5, -5))
      expect(Math.abs(valueAt(curve!.spline, time) - swing(time))).toBeLessThan(2);
  });

  it('keeps gaps as gaps and doubts what it bridges', () => {
    const bridged = seconds.filter((time) => time < 2 || time > 2.5);
    const [curve, none] = smoothSamples(samplesOf(bridged, bridged.map(swing)));
    expect(none).toBeUndefined();
    const errorAt = (time: number) => {
      const knot = Math.round((time - curve!.spline.startSeconds) / curve!.spline.stepSeconds);
      expect(knotSeconds(curve!.spline, knot)).toBeCloseTo(time, 1);
      return curve!.standardErrors.values[knot]!;
    };
    expect(errorAt(2.25)).toBeGreaterThan(3 * errorAt(1));
    expect(
      splitAtGaps(
        samplesOf(
          seconds.filter((time) => time < 2 || time > 3),
          [],
        ),
        0.7,
      ),
    ).toHaveLength(2);
  });

  it('says nothing about stretches too short for a move', () => {
    expect(smoothSamples(samplesOf([0, 0.1, 0.2], [1, 2, 3]))).toEqual([]);
    expect(smoothSamples(samplesOf([], []))).toEqual([]);
  });
});
