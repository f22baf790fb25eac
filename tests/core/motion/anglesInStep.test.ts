import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { inStep, type OtherAngle, steadiedByAngles } from '../../../core/motion/anglesInStep.js';
import type { Samples } from '../../../core/motion/samples.js';

const FRAMES = 600;
const SECONDS = Float64Array.from({ length: FRAMES }, (_, frame) => frame / 30);
/** To and fro once in five seconds, 0 to 1. */
const shareGone = (at: number) => 0.5 - 0.5 * Math.cos((2 * Math.PI * at) / 5);
const trueDegrees = (at: number) => 10 + 100 * shareGone(at);

function samplesOf(degreesAt: (seconds: number) => number, seconds = SECONDS): Samples {
  return {
    seconds,
    values: seconds.map(degreesAt),
    standardErrors: new Float64Array(seconds.length).fill(1),
  };
}

/** Another joint over the same film. */
const other = (degreesAt: (seconds: number) => number, seconds = SECONDS): OtherAngle =>
  inStep(samplesOf(degreesAt, seconds));

/** As an oblique view shows an angle: bent on its way from one end to the other, by up to five degrees. */
const bent = (waves: number) => (at: number) => {
  const gone = shareGone(at);
  return trueDegrees(at) + 5 * Math.sin(2 * Math.PI * waves * gone) * Math.sin(Math.PI * gone);
};

function rootMeanSquareError({ values }: Samples): number {
  const squares = values.map((value, i) => (value - trueDegrees(SECONDS[i]!)) ** 2);
  return Math.sqrt(squares.reduce((sum, square) => sum + square, 0) / squares.length);
}

describe('an angle steadied by joints that move in step', () => {
  it('is bent about half as much by the mean of four that are bent each in its own way', () => {
    const angle = samplesOf(bent(1));
    // Another joint has other degrees, and may open while this one closes.
    const others = [2, 3, 4].map((waves) => other((at) => 170 - 0.8 * bent(waves)(at)));
    const steadied = steadiedByAngles(angle, others, 0, 20);
    expect(rootMeanSquareError(steadied)).toBeLessThan(0.6 * rootMeanSquareError(angle));
  });

  it('stays what it is beside joints that say the same of it, whatever their degrees', () => {
    const slope = fc
      .oneof(fc.double({ min: 0.3, max: 3 }), fc.double({ min: -3, max: -0.3 }))
      .filter(Number.isFinite);
    fc.assert(
      fc.property(slope, fc.double({ min: -90, max: 180, noNaN: true }), (factor, offset) => {
        const angle = samplesOf(trueDegrees);
        const steadied = steadiedByAngles(angle, [other((at) => offset + factor * trueDegrees(at))], 0, 20);
        const largest = Math.max(...steadied.values.map((value, i) => Math.abs(value - angle.values[i]!)));
        expect(largest).toBeLessThan(1e-6);
      }),
    );
  });

  it('goes the further towards another the more that one counts', () => {
    const angle = samplesOf(bent(1));
    const errors = [0.5, 1, 3].map((say) =>
      rootMeanSquareError(steadiedByAngles(angle, [{ ...other(trueDegrees), say }], 0, 20)),
    );
    expect(errors[0]).toBeGreaterThan(errors[1]!);
    expect(errors[1]).toBeGreaterThan(errors[2]!);
  });

  it('stays what it is beyond the stretch', () => {
    const angle = samplesOf(bent(1));
    const { values } = steadiedByAngles(angle, [other(bent(2))], 5, 15);
    SECONDS.forEach((at, i) => {
      if (at < 5 || at > 15) expect(values[i]).toBe(angle.values[i]);
    });
    expect(values).not.toEqual(angle.values);
  });

  it.each([
    ['runs a third of a second behind', other((at) => trueDegrees(at - 1 / 3))],
    ['hardly moves', other((at) => 40 + 0.15 * trueDegrees(at))],
    ['does not move at all', other(() => 40)],
    [
      'is seen in some frames only',
      other(
        trueDegrees,
        SECONDS.filter((_, i) => i % 5 > 0),
      ),
    ],
  ])('is left alone by a joint that %s', (_, joint) => {
    const angle = samplesOf(bent(1));
    expect(steadiedByAngles(angle, [joint], 0, 20)).toBe(angle);
  });

  it('is left alone where the stretch holds too few samples to tell what moves in step', () => {
    const angle = samplesOf(bent(1));
    expect(steadiedByAngles(angle, [other(bent(2))], 0, 1.5)).toBe(angle);
  });
});
