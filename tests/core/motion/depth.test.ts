import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { readBody } from '../../../core/motion/body.js';
import { apparentShare, inSpace } from '../../../core/motion/depth.js';
import type { JointAngle } from '../../../core/motion/jointAngle.js';
import { type JointSamples, jointSamples } from '../../../core/motion/jointSamples.js';
import { estimateView } from '../../../core/motion/view.js';
import {
  KEYPOINT_COUNT,
  KEYPOINT_INDEX,
  KEYPOINTS,
  otherSide,
  type Side,
} from '../../../core/pose/keypoints.js';
import type { PoseTrack } from '../../../core/pose/track.js';
import { filmed, type Pose, STANDING, times } from './stickFigure.js';

const wave = (seconds: number) => (1 - Math.cos((2 * Math.PI * seconds) / 4)) / 2;
const curl = (seconds: number): Pose => ({ ...STANDING, elbowFlexion: 5 + 125 * wave(seconds) });
const squat = (seconds: number): Pose => {
  const depth = wave(seconds);
  return { ...STANDING, kneeFlexion: 105 * depth, hipFlexion: 95 * depth, trunkLean: 35 * depth };
};
const row = (seconds: number): Pose => ({
  ...STANDING,
  kneeFlexion: 20,
  hipFlexion: 80,
  trunkLean: 60,
  shoulderFlexion: 60 - 70 * wave(seconds),
  elbowFlexion: 10 + 85 * wave(seconds),
});

function read(track: PoseTrack, joint: JointAngle, side: Side): JointSamples {
  const body = readBody(track);
  return jointSamples(body, joint, side, estimateView(body, 0, 100));
}

function rootMeanSquareError(samples: JointSamples, truth: (seconds: number) => number): number {
  const errors = Array.from(samples.seconds, (time, at) => samples.values[at]! - truth(time));
  return Math.hypot(...errors) / Math.sqrt(errors.length);
}

describe('lines out of the picture plane', () => {
  it('look as long as parallel projection says', () => {
    // A level segment 30° off keeps 0.866 of its length; an upright one all of it (plane geometry).
    expect(apparentShare(0, 30)).toBeCloseTo(0.866025, 6);
    expect(apparentShare(90, 60)).toBeCloseTo(1, 10);
  });

  it('come back into space at their own length', () => {
    const lens = { focalPixels: 1000, rightIsNearer: 0 } as const;
    fc.assert(
      fc.property(fc.integer({ min: 0, max: 70 }), fc.integer({ min: 0, max: 359 }), (yaw, elevation) => {
        const [across, up] = [Math.cos((elevation * Math.PI) / 180), Math.sin((elevation * Math.PI) / 180)];
        const seen = { x: 100 * across * Math.cos((yaw * Math.PI) / 180), y: 100 * up, endX: 0, endY: 0 };
        const { x, y, z } = inSpace(seen, yaw, lens);
        expect(Math.hypot(x, y, z)).toBeCloseTo(100, 6);
      }),
    );
  });
});

describe('joint angles from oblique views', () => {
  // Flat readings of the same films are off by 8° to 20° (projected-angle formulae, checked in angles.test.ts).
  it.each([
    ['curl', curl, 'elbow-flexion', (pose: Pose) => pose.elbowFlexion],
    ['squat', squat, 'knee-flexion', (pose: Pose) => pose.kneeFlexion],
    ['squat', squat, 'hip-flexion', (pose: Pose) => pose.hipFlexion],
    ['row', row, 'elbow-flexion', (pose: Pose) => pose.elbowFlexion],
  ] as const)('a %s at 30° and 45° from front and back (%#)', (_, movement, joint, angle) => {
    for (const azimuthDegrees of [45, 60, 120, 135]) {
      const track = filmed(times(8), movement, { azimuthDegrees, torsoPixels: 150 }, { pixels: 2, seed: 11 });
      const samples = read(track, joint, 'left');
      expect(rootMeanSquareError(samples, (seconds) => angle(movement(seconds)))).toBeLessThan(6);
      expect(samples.degreesTrustworthy).toBe(true);
      expect(samples.correction).toBe('out-of-plane');
    }
  });

  it('is as good as flat in a true side view', () => {
    const camera = { azimuthDegrees: 90, torsoPixels: 150 };
    const exact = read(filmed(times(8), curl, camera), 'elbow-flexion', 'left');
    expect(rootMeanSquareError(exact, (seconds) => curl(seconds).elbowFlexion)).toBeLessThan(1);
  });

  it.each([
    ['a curl from the front', curl, 0, 'elbow-flexion'],
    ['a squat from the front', squat, 0, 'knee-flexion'],
    ['a squat from behind', squat, 180, 'knee-flexion'],
  ] as const)('gives no degrees for %s', (_, movement, azimuthDegrees, joint) => {
    const track = filmed(times(8), movement, { azimuthDegrees, torsoPixels: 150 }, { pixels: 2, seed: 12 });
    const samples = read(track, joint, 'left');
    expect(samples.degreesTrustworthy).toBe(false);
    expect(samples.reason).toBe('view-too-oblique');
  });

  it('gives no abduction from the side', () => {
    const raise = (seconds: number): Pose => ({ ...STANDING, shoulderAbduction: 85 * wave(seconds) });
    const track = filmed(times(8), raise, { azimuthDegrees: 90, torsoPixels: 150 }, { pixels: 2, seed: 13 });
    expect(read(track, 'shoulder-abduction', 'left').reason).toBe('view-not-frontal');
  });
});

describe('what must not matter', () => {
  const arbitraryFilm = fc.record({
    azimuthDegrees: fc.integer({ min: -180, max: 180 }),
    seed: fc.integer({ min: 1, max: 1000 }),
    movement: fc.constantFrom(curl, squat, row),
  });
  const joints: readonly JointAngle[] = ['elbow-flexion', 'knee-flexion', 'shoulder-flexion', 'hip-flexion'];

  it('a mirrored picture swaps the sides and nothing else', () => {
    fc.assert(
      fc.property(arbitraryFilm, ({ azimuthDegrees, seed, movement }) => {
        const track = onGrid(
          filmed(times(2), movement, { azimuthDegrees, torsoPixels: 150 }, { pixels: 1, seed }),
        );
        const mirror = mirrored(track);
        for (const joint of joints) {
          const original = read(track, joint, 'left');
          const swapped = read(mirror, joint, 'right');
          expect(swapped.reason).toBe(original.reason);
          expectClose(swapped, original);
        }
      }),
      { numRuns: 8 },
    );
  });

  it('the size of the picture changes nothing', () => {
    fc.assert(
      fc.property(
        arbitraryFilm,
        fc.constantFrom(0.25, 0.5, 2, 4),
        ({ azimuthDegrees, seed, movement }, factor) => {
          const track = filmed(times(2), movement, { azimuthDegrees, torsoPixels: 150 }, { pixels: 1, seed });
          const larger = {
            ...track,
            width: track.width * factor,
            height: track.height * factor,
            x: track.x.map((value) => value * factor),
            y: track.y.map((value) => value * factor),
          };
          for (const joint of joints) expectClose(read(larger, joint, 'left'), read(track, joint, 'left'));
        },
      ),
      { numRuns: 8 },
    );
  });
});

/** Coordinates that mirror without rounding. */
function onGrid(track: PoseTrack): PoseTrack {
  return { ...track, x: track.x.map((value) => Math.round(value * 32) / 32) };
}

function mirrored(track: PoseTrack): PoseTrack {
  const from = (at: number) =>
    at - (at % KEYPOINT_COUNT) + KEYPOINT_INDEX[otherSide(KEYPOINTS[at % KEYPOINT_COUNT]!)];
  return {
    ...track,
    x: track.x.map((_, at) => track.width - track.x[from(at)]!),
    y: track.y.map((_, at) => track.y[from(at)]!),
    score: track.score.map((_, at) => track.score[from(at)]!),
  };
}

function expectClose(a: JointSamples, b: JointSamples): void {
  expect(a.seconds).toEqual(b.seconds);
  a.values.forEach((value, at) => {
    expect(Math.abs(value - b.values[at]!)).toBeLessThan(0.05);
    expect(Math.abs(a.standardErrors[at]! - b.standardErrors[at]!)).toBeLessThan(0.05);
  });
}
