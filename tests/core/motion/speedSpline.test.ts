import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { Samples } from '../../../core/motion/samples.js';
import {
  type FitRequest,
  fitSystem,
  knotSeconds,
  solveFit,
  speedAt,
  speedAtKnot,
  valueAt,
} from '../../../core/motion/speedSpline.js';

function samplesOf(seconds: readonly number[], values: readonly number[]): Samples {
  return {
    seconds: Float64Array.from(seconds),
    values: Float64Array.from(values),
    standardErrors: new Float64Array(seconds.length).fill(1),
  };
}

function fit(samples: Samples, request: Partial<FitRequest> & { readonly smoothing: number }) {
  const { seconds } = samples;
  const stepSeconds = request.stepSeconds ?? 1 / 240;
  const cells = request.cells ?? Math.ceil((seconds[seconds.length - 1]! - seconds[0]!) / stepSeconds);
  return solveFit(
    fitSystem(samples, new Float64Array(seconds.length).fill(1), {
      startSeconds: seconds[0]!,
      stepSeconds,
      cells,
      smoothingSeconds: new Float64Array(cells + 1).fill(request.smoothing),
      directions: request.directions ?? null,
    }),
  );
}

const BENDING_ELBOW = [10, 12, 20, 35, 55, 80, 105, 125, 140, 148, 150, 149];

// scipy 1.17.1: make_smoothing_spline(arange(12) / 30, BENDING_ELBOW, lam=1e-4) at the samples.
const REFERENCE_EVEN = [
  3.9503, 13.0827, 24.3889, 39.5044, 58.6363, 80.3838, 102.1469, 121.1821, 135.6625, 145.148, 150.6808,
  154.2333,
];
// The same with lam=2e-5 at the irregular times of the test.
const REFERENCE_IRREGULAR = [
  8.4389, 12.909, 22.0269, 32.1232, 59.9138, 86.9979, 93.9536, 124.8828, 141.5201, 146.6027, 150.3755,
  149.2556,
];

/** The smoothing seconds that make the penalty equal scipy's `lam`: lam = density · seconds⁴. */
function smoothingFor(lam: number, samples: Samples, spanSeconds: number): number {
  return (lam / (samples.seconds.length / spanSeconds)) ** 0.25;
}

describe('smoothing without directions', () => {
  // Ours is quadratic on fine knots, which tends to the cubic smoothing spline of the reference.
  it("agrees with scipy's smoothing spline at even times", () => {
    const seconds = BENDING_ELBOW.map((_, i) => i / 30);
    const samples = samplesOf(seconds, BENDING_ELBOW);
    const spline = fit(samples, { smoothing: smoothingFor(1e-4, samples, 11 / 30) });
    for (const [i, time] of seconds.entries())
      expect(valueAt(spline, time)).toBeCloseTo(REFERENCE_EVEN[i]!, 0);
  });

  it("agrees with scipy's smoothing spline at irregular times", () => {
    const seconds = [0, 0.03, 0.07, 0.1, 0.16, 0.2, 0.21, 0.27, 0.33, 0.36, 0.42, 0.5];
    const samples = samplesOf(seconds, BENDING_ELBOW);
    const spline = fit(samples, { smoothing: smoothingFor(2e-5, samples, 0.5) });
    for (const [i, time] of seconds.entries())
      expect(valueAt(spline, time)).toBeCloseTo(REFERENCE_IRREGULAR[i]!, 0);
  });

  it('leaves a straight line alone, however much it smooths', () => {
    fc.assert(
      fc.property(
        fc.double({ min: -50, max: 50, noNaN: true }),
        fc.double({ min: 0.05, max: 0.5, noNaN: true }),
        (slope, smoothing) => {
          const seconds = Array.from({ length: 40 }, (_, i) => i / 30);
          const spline = fit(
            samplesOf(
              seconds,
              seconds.map((time) => 5 + slope * time),
            ),
            { smoothing },
          );
          for (const time of seconds) {
            expect(valueAt(spline, time)).toBeCloseTo(5 + slope * time, 4);
            expect(speedAt(spline, time)).toBeCloseTo(slope, 2);
          }
        },
      ),
      { numRuns: 25 },
    );
  });

  it('shifts nothing in time: the mirrored film gives the mirrored curve', () => {
    const seconds = BENDING_ELBOW.map((_, i) => i / 30);
    const last = seconds[seconds.length - 1]!;
    const forwards = fit(samplesOf(seconds, BENDING_ELBOW), {
      smoothing: 0.05,
      stepSeconds: last / 88,
      cells: 88,
    });
    const backwards = fit(samplesOf(seconds, BENDING_ELBOW.toReversed()), {
      smoothing: 0.05,
      stepSeconds: last / 88,
      cells: 88,
    });
    for (const time of seconds)
      expect(valueAt(forwards, time)).toBeCloseTo(valueAt(backwards, last - time), 6);
  });
});

describe('smoothing with directions', () => {
  it('never moves against the direction, whatever the noise', () => {
    fc.assert(
      fc.property(
        fc.array(fc.double({ min: -5, max: 5, noNaN: true }), { minLength: 30, maxLength: 60 }),
        (noise) => {
          const seconds = noise.map((_, i) => i / 30);
          const cells = 2 * noise.length;
          const spline = fit(
            samplesOf(
              seconds,
              noise.map((value, i) => value + 40 * Math.min(1, Math.max(0, i / 30 - 0.3))),
            ),
            {
              smoothing: 0.04,
              stepSeconds: seconds[seconds.length - 1]! / cells,
              cells,
              directions: new Int8Array(cells + 1).fill(1),
            },
          );
          for (let knot = 0; knot <= cells; knot++) expect(speedAtKnot(spline, knot)).toBeGreaterThan(-1e-3);
        },
      ),
      { numRuns: 25 },
    );
  });

  it('changes nothing where the free curve already goes that way', () => {
    const seconds = Array.from({ length: 60 }, (_, i) => i / 30);
    const samples = samplesOf(
      seconds,
      seconds.map((time) => 30 * time + 5 * Math.sin(2 * time)),
    );
    const cells = 60;
    const common = { smoothing: 0.06, stepSeconds: 59 / 30 / cells, cells };
    const free = fit(samples, common);
    const directed = fit(samples, { ...common, directions: new Int8Array(cells + 1).fill(1) });
    for (let knot = 0; knot <= cells; knot++) {
      const time = knotSeconds(free, knot);
      expect(valueAt(directed, time)).toBeCloseTo(valueAt(free, time), 2);
    }
  });
});
