import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { toRadians } from '../../../core/motion/angles.js';
import { planeOutOfPicture as plane, type TurnedLimb } from '../../../core/motion/turningPlane.js';

const planeOutOfPicture = (limbs: readonly TurnedLimb[], view: number) => plane(limbs, view).degrees;

/** A limb of a length that turns from one lean to another, degrees from upright, in a plane turned out of the picture. */
function limb(length: number, from: number, to: number, outOfPicture: number): TurnedLimb {
  const at = (lean: number) => ({
    x: length * Math.sin(toRadians(lean)) * Math.cos(toRadians(outOfPicture)),
    y: length * Math.cos(toRadians(lean)),
  });
  return { low: at(from), high: at(to) };
}

/** Thighs and trunk of a squat. */
const squat = (outOfPicture: number, size = 1) =>
  [0, 1].flatMap(() => [limb(0.85 * size, 0, -75, outOfPicture), limb(size, 5, 40, outOfPicture)]);

const angles = (max: number) => fc.double({ min: 0, max, noNaN: true });

describe('the plane in which limbs turn', () => {
  it('is told by limbs that turn far, three quarters of it or more, whatever the view says', () => {
    fc.assert(
      fc.property(angles(90), angles(90), (outOfPicture, view) => {
        const told = planeOutOfPicture(squat(outOfPicture), view);
        const squaredCosine = (degrees: number) => Math.cos(toRadians(degrees)) ** 2;
        const left = Math.abs(squaredCosine(told) - squaredCosine(outOfPicture));
        expect(left).toBeLessThanOrEqual(
          0.3 * Math.abs(squaredCosine(view) - squaredCosine(outOfPicture)) + 1e-9,
        );
      }),
    );
  });

  it('is the view where no limb turns', () => {
    fc.assert(
      fc.property(angles(90), (view) => {
        expect(planeOutOfPicture([limb(0.7, 10, 10, 45)], view)).toBeCloseTo(view, 4);
        expect(planeOutOfPicture([], view)).toBeCloseTo(view, 4);
      }),
    );
  });

  it('lies between the two where limbs turn a little', () => {
    const told = planeOutOfPicture([limb(0.5, 30, 60, 20)], 60);
    expect(told).toBeGreaterThan(20);
    expect(told).toBeLessThan(59);
  });

  it('does not mind how a limb is mirrored or which end of the range comes first', () => {
    const plain = planeOutOfPicture(squat(40), 60);
    const mirrored = squat(40).map(({ low, high }) => ({
      low: { ...low, x: -low.x },
      high: { ...high, x: -high.x },
    }));
    const reversed = squat(40).map(({ low, high }) => ({ low: high, high: low }));
    expect(planeOutOfPicture(mirrored, 60)).toBeCloseTo(plain, 9);
    expect(planeOutOfPicture(reversed, 60)).toBeCloseTo(plain, 9);
  });
});
