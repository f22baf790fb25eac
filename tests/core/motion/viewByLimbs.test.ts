import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { AngleCurve } from '../../../core/motion/anglesInStep.js';
import { readBody } from '../../../core/motion/body.js';
import { estimateView, turnedTo, type View } from '../../../core/motion/view.js';
import { viewByLimbs } from '../../../core/motion/viewByLimbs.js';
import { filmed, type Pose, STANDING, times } from './stickFigure.js';

const SECONDS = times(10);
const depthAt = (at: number) => 0.5 - 0.5 * Math.cos((2 * Math.PI * at) / 5);
const kneeAt = (at: number) => 110 * depthAt(at);
const SQUATTING = (at: number): Pose => ({
  ...STANDING,
  kneeFlexion: kneeAt(at),
  hipFlexion: 115 * depthAt(at),
  trunkLean: 40 * depthAt(at),
});
const KNEE: AngleCurve = { seconds: Float64Array.from(SECONDS), values: Float64Array.from(SECONDS, kneeAt) };
const OPTIONS = { fromSeconds: 0, toSeconds: 10, sides: ['left', 'right'] } as const;

const filmedFrom = (degreesOffSide: number, poseAt: (at: number) => Pose = SQUATTING) =>
  readBody(filmed(SECONDS, poseAt, { azimuthDegrees: 90 - degreesOffSide, torsoPixels: 120 }));
const VIEW: View = {
  facing: 'left',
  degreesOffSide: 45,
  uncertaintyDegrees: 26,
  confidence: 1,
  nearSide: 'left',
  forward: -1,
  fromFront: true,
};

describe('the view told by limbs', () => {
  it('is where the camera stands, to 8°, though shoulders and hips say 15° more or less', () => {
    const camera = fc.integer({ min: 30, max: 60 });
    fc.assert(
      fc.property(camera, fc.constantFrom(-15, 0, 15), (degrees, wrong) => {
        const view = { ...VIEW, degreesOffSide: degrees + wrong };
        const told = viewByLimbs(filmedFrom(degrees), KNEE, { ...OPTIONS, view });
        expect(Math.abs(told.degreesOffSide - degrees)).toBeLessThan(8);
        expect(Math.abs(told.degreesOffSide - degrees)).toBeLessThan(told.uncertaintyDegrees);
      }),
      { numRuns: 30 },
    );
  });

  it('is surer than that of shoulders and hips, and still says which side is near', () => {
    const body = filmedFrom(50);
    const view = estimateView(body, 0, 10);
    const told = viewByLimbs(body, KNEE, { ...OPTIONS, view });
    expect(told.uncertaintyDegrees).toBeLessThan(20);
    expect(told).toMatchObject({ nearSide: 'left', facing: 'left', forward: -1, fromFront: true });
  });

  it('stays where nobody moves', () => {
    const still: AngleCurve = { ...KNEE, values: KNEE.values.map(() => 20) };
    const body = filmedFrom(45, () => STANDING);
    expect(viewByLimbs(body, still, { ...OPTIONS, view: VIEW })).toBe(VIEW);
  });
});

describe('a view turned further round', () => {
  it('has a near side up to 58° off the side, and a front or a back from there on', () => {
    expect(turnedTo(VIEW, 40, 10)).toEqual({ ...VIEW, degreesOffSide: 40, uncertaintyDegrees: 10 });
    expect(turnedTo(VIEW, 70, 10)).toMatchObject({ facing: 'front', nearSide: null, forward: -1 });
    expect(turnedTo({ ...VIEW, fromFront: false }, 70, 10)).toMatchObject({ facing: 'back' });
    const front: View = { ...VIEW, facing: 'front', nearSide: null, forward: 1, degreesOffSide: 70 };
    expect(turnedTo(front, 45, 10)).toMatchObject({ facing: 'right', nearSide: 'right' });
  });
});
