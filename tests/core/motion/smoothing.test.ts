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

  it('finds about as much of it as residual analysis does', () => {
    // Winter's residual analysis of these data: a line through the residuals of two-pass Butterworth filters from 10
    // to 20 Hz meets 0 Hz at 0.0059 rad (scipy, filtfilt with the corrected cut-off).
    const intercept = (0.0059035 * 180) / Math.PI;
    expect(curve!.noise).toBeGreaterThan(0.7 * intercept);
    expect(curve!.noise).toBeLessThan(1.2 * intercept);
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

describe('beside filters of the handbooks', () => {
  it('gives what a zero-phase Butterworth filter gives, and shifts nothing', () => {
    // scipy: filtfilt of butter(2, 6 Hz) at 30 frames a second, odd padding of 9 samples.
    const values = [10, 10, 11, 13, 18, 26, 38, 52, 66, 78, 86, 90, 91, 90, 86, 78, 66, 52, 38, 26];
    const filtered = [
      10, 10.0331, 10.7848, 13.1335, 18.1034, 26.4775, 38.1916, 52.0132, 65.8545, 77.5474, 85.6897, 90.1098,
      91.4514, 90.1122, 85.6673, 77.4845, 65.8527, 52.333, 38.8047, 26.0009,
    ];
    const [curve] = smoothSamples(
      samplesOf(
        values.map((_, i) => i / 30),
        values,
      ),
    );
    for (let i = 0; i < values.length - 2; i++)
      expect(Math.abs(valueAt(curve!.spline, i / 30) - filtered[i]!)).toBeLessThan(0.2);
  });

  it('keeps a cubic and its speed, as Savitzky–Golay filters of order three do', () => {
    // scipy's own test of savgol_filter: t³ − t and its derivative 3t² − 1 come back exactly.
    const seconds = Array.from({ length: 60 }, (_, i) => i / 30 - 1);
    const [curve] = smoothSamples(
      samplesOf(
        seconds,
        seconds.map((t) => 30 * (t ** 3 - t)),
      ),
    );
    for (const t of seconds.slice(3, -3)) {
      expect(valueAt(curve!.spline, t)).toBeCloseTo(30 * (t ** 3 - t), 2);
      expect(Math.abs(speedAt(curve!.spline, t) - 30 * (3 * t * t - 1))).toBeLessThan(0.25);
    }
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
