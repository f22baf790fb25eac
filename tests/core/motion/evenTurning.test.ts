import fc from 'fast-check';
import { linearRegression } from 'simple-statistics';
import { describe, expect, it } from 'vitest';
import type { AngleCurve } from '../../../core/motion/anglesInStep.js';
import type { Body } from '../../../core/motion/body.js';
import { type EvenTurning, evenTurning } from '../../../core/motion/evenTurning.js';
import { KEYPOINT_COUNT, KEYPOINT_INDEX, type Keypoint } from '../../../core/pose/keypoints.js';

const SECONDS = Float64Array.from({ length: 600 }, (_, frame) => frame / 30);
const RADIANS = Math.PI / 180;
const TORSO = 100;
/** How far down, 0 to 1, once in five seconds. */
const depthAt = (at: number) => 0.5 - 0.5 * Math.cos((2 * Math.PI * at) / 5);
const kneeAt = (at: number) => 5 + 105 * depthAt(at);
/** As a pose model shows it: slower near both ends, quicker between. */
const bentKneeAt = (at: number) => {
  const depth = depthAt(at);
  return 5 + 105 * (depth - 0.08 * Math.sin(2 * Math.PI * depth));
};

/** Forward leans of shank, thigh, trunk, upper arm and forearm at a depth, degrees from upright. */
type Leans = (depth: number) => readonly [number, number, number, number, number];
const SQUAT: Leans = (depth) => [35 * depth, -75 * depth, 5 + 35 * depth, 180, 180 - 20 * depth];
/** A trunk that bows and comes up again on the way. */
const BOWING: Leans = (depth) => [20 * depth, -85 * depth, 60 * Math.sin(Math.PI * depth), 180, 180];
/** Shanks that lean forward and come back on the way. */
const STRAYING: Leans = (depth) => [40 * Math.sin(Math.PI * depth), -90 * depth, 5, 180, 180];
const LENGTHS = [85, 85, TORSO, 65, 55] as const;
/** What is at the upper or far end of each. */
const JOINTS = ['knee', 'hip', 'shoulder', 'elbow', 'wrist'] as const;
const FACE = ['nose', 'left-eye', 'right-eye'] as const;

/** A figure far away that stands on its feet, seen from so many degrees off the side. */
function figure(leans: Leans, degreesOffSide: number, { size = 1, mirrored = false } = {}): Body {
  const [x, y] = [0, 1].map(() => new Float32Array(SECONDS.length * KEYPOINT_COUNT));
  const put = (frame: number, name: Keypoint, across: number, up: number) => {
    const index = frame * KEYPOINT_COUNT + KEYPOINT_INDEX[name];
    x![index] = 500 + size * (mirrored ? -across : across);
    y![index] = 500 - size * up;
  };
  const shown = Math.cos(degreesOffSide * RADIANS);
  SECONDS.forEach((at, frame) => {
    for (const side of ['left', 'right'] as const) {
      // A mirror shows the left side as the right one.
      const label = mirrored ? (side === 'left' ? 'right' : 'left') : side;
      const nearer = side === 'left' ? 10 : -10;
      let [forward, up] = [0, 0];
      put(frame, `${label}-ankle`, nearer, 0);
      leans(depthAt(at)).forEach((lean, limb) => {
        forward += LENGTHS[limb]! * Math.sin(lean * RADIANS);
        up += LENGTHS[limb]! * Math.cos(lean * RADIANS);
        const joint = JOINTS[limb]!;
        put(frame, `${label}-${joint}`, forward * shown + nearer, up);
        if (joint === 'shoulder') put(frame, `${label}-ear`, forward * shown + nearer / 4, up + 30);
      });
    }
  });
  const seen = new Uint8Array(SECONDS.length * KEYPOINT_COUNT).fill(1);
  for (let frame = 0; frame < SECONDS.length; frame++) {
    for (const face of FACE) seen[frame * KEYPOINT_COUNT + KEYPOINT_INDEX[face]] = 0;
  }
  return {
    ...{ x, y, seen, seconds: SECONDS, frames: SECONDS.length, torsoPixels: size * TORSO },
  } as unknown as Body;
}

const curve = (valueAt: (seconds: number) => number): AngleCurve => ({
  seconds: SECONDS,
  values: SECONDS.map(valueAt),
});

function turningOf(body: Body, degreesOffSide: number, angle = curve(bentKneeAt)): EvenTurning {
  const sides = ['left', 'right'] as const;
  return evenTurning(body, angle, {
    ...{ joint: 'knee-flexion', fromSeconds: 0, toSeconds: 20, sides, outOfPictureDegrees: degreesOffSide },
  })!;
}

/** Largest distance in degrees from the straight line that takes the curve to the true angle: times rest on its course alone. */
function largestError({ seconds, values }: AngleCurve): number {
  const pairs = Array.from(values, (value, i) => [value, kneeAt(seconds[i]!)]);
  const { m, b } = linearRegression(pairs);
  return Math.max(...pairs.map(([value, truth]) => Math.abs(m * value! + b - truth!)));
}

describe('an angle told from the postures at both ends', () => {
  it('is right where limbs turn evenly, though the angle it starts from is bent', () => {
    const bent = largestError(curve(bentKneeAt));
    fc.assert(
      fc.property(fc.double({ min: 0, max: 50, noNaN: true }), (off) => {
        const turning = turningOf(figure(SQUAT, off), off);
        expect(turning.seconds).toHaveLength(SECONDS.length);
        expect(largestError(turning)).toBeLessThan(0.6 * bent);
        expect(turning.misfit).toBeLessThan(0.02);
      }),
      { numRuns: 12 },
    );
  });

  it('needs no exact view, since the limbs tell it', () => {
    const body = figure(SQUAT, 45);
    for (const taken of [30, 60]) {
      expect(largestError(turningOf(body, taken))).toBeLessThan(0.6 * largestError(curve(bentKneeAt)));
    }
  });

  it('is the same in a picture of another size and in the mirror', () => {
    const plain = turningOf(figure(SQUAT, 40), 40).values;
    for (const change of [{ size: 0.5 }, { mirrored: true }]) {
      const { values } = turningOf(figure(SQUAT, 40, change), 40);
      values.forEach((value, i) => {
        expect(value).toBeCloseTo(plain[i]!, 3);
      });
    }
  });

  it('holds when a limb is mistaken for another now and then', () => {
    const body = figure(SQUAT, 40);
    for (let frame = 3; frame < body.frames; frame += 7) {
      const knee = frame * KEYPOINT_COUNT + KEYPOINT_INDEX['left-knee'];
      body.x[knee] = body.x[knee]! + 40;
    }
    expect(largestError(turningOf(body, 40))).toBeLessThan(0.3 * largestError(curve(bentKneeAt)));
  });

  it('leaves out a trunk which bows and comes up again, with what hangs from it', () => {
    const turning = turningOf(figure(BOWING, 40), 40);
    expect(largestError(turning)).toBeLessThan(0.6 * largestError(curve(bentKneeAt)));
    expect(turning.misfit).toBeLessThan(0.05);
  });

  it('says by its misfit that shanks which lean forward and come back do not turn evenly', () => {
    expect(turningOf(figure(STRAYING, 40), 40).misfit).toBeGreaterThan(0.1);
  });

  it('leaves out frames that show too little', () => {
    const body = figure(SQUAT, 40);
    body.seen.fill(0, 50 * KEYPOINT_COUNT, 60 * KEYPOINT_COUNT);
    const { seconds } = turningOf(body, 40);
    expect(seconds).toHaveLength(SECONDS.length - 10);
    expect(seconds).not.toContain(SECONDS[55]);
  });

  it.each([
    ['an angle that does not change', figure(SQUAT, 40), curve(() => 30)],
    [
      'a body that is not seen',
      { ...figure(SQUAT, 40), seen: new Uint8Array(600 * KEYPOINT_COUNT) },
      curve(kneeAt),
    ],
    ['a body that stays where it is', figure(() => [0, 0, 0, 180, 180], 40), curve(kneeAt)],
  ])('tells nothing of %s', (_, body, angle) => {
    expect(turningOf(body, 40, angle)).toBeNull();
  });
});
