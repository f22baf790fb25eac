import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { AngleCurve } from '../../../core/motion/anglesInStep.js';
import { correspondence } from '../../../core/motion/correspondence.js';

const SECONDS = Float64Array.from({ length: 300 }, (_, frame) => frame / 30);
const WHOLE = { fromSeconds: 0, toSeconds: 10 };
const curve = (valueAt: (at: number) => number): AngleCurve => ({
  seconds: SECONDS,
  values: SECONDS.map(valueAt),
});
const knee = (at: number) => 60 - 50 * Math.cos(at);
const KNEE = curve(knee);

describe('what an angle amounts to when read in another way', () => {
  it('follows any slow change of scale and offset, within and a little beyond what was seen', () => {
    const share = fc.double({ min: 0.8, max: 1.2, noNaN: true });
    const offset = fc.double({ min: -20, max: 20, noNaN: true });
    const degrees = fc.double({ min: 8, max: 112, noNaN: true });
    fc.assert(
      fc.property(share, offset, degrees, (scale, more, asked) => {
        const other = curve((at) => scale * knee(at) + more);
        expect(Math.abs(correspondence(KNEE, other, WHOLE)(asked) - (scale * asked + more))).toBeLessThan(
          1.5,
        );
      }),
    );
  });

  it('hears only the times that have both, within the stretch', () => {
    const other = curve((at) => knee(at) + (at > 7 ? 40 : 5));
    const fewer = {
      seconds: other.seconds.filter((_, i) => i % 2 === 0),
      values: other.values.filter((_, i) => i % 2 === 0),
    };
    expect(correspondence(KNEE, fewer, { fromSeconds: 0, toSeconds: 7 })(60)).toBeCloseTo(65, 6);
  });

  it('is the angle itself where no time has both', () => {
    const later = { ...KNEE, seconds: SECONDS.map((at) => at + 1000.001) };
    expect(correspondence(KNEE, later, WHOLE)(60)).toBe(60);
    const still = curve(() => 20);
    expect(correspondence(still, KNEE, WHOLE)(20)).toBe(20);
  });
});
