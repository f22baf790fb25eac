import { describe, expect, it } from 'vitest';
import type { Body } from '../../../core/motion/body.js';
import { steadiedByPose } from '../../../core/motion/poseRegression.js';
import type { Samples } from '../../../core/motion/samples.js';
import { KEYPOINT_COUNT } from '../../../core/pose/keypoints.js';
import { randomStream } from '../../../fixtures/lifter/random.js';

const FRAMES = 600;
const ERROR_PIXELS = 0.5;
const ANGLE_ERROR = 3;
const secondsOf = (frame: number) => frame / 30;
/** To and fro once in five seconds. */
const trueDegrees = (seconds: number) => 60 - 50 * Math.cos((2 * Math.PI * seconds) / 5);

/** Keypoints that follow an angle each in a way of its own, bent and straight, with errors of their own. */
function bodyFollowing(angleAt: (seconds: number) => number, errorPixels = ERROR_PIXELS): Body {
  const random = randomStream(1, 'body');
  const ways = Array.from({ length: 2 * KEYPOINT_COUNT }, () => [random.normal(), random.normal() / 100]);
  const places = (offset: number) =>
    Float32Array.from({ length: FRAMES * KEYPOINT_COUNT }, (_, index) => {
      const angle = angleAt(secondsOf(Math.floor(index / KEYPOINT_COUNT)));
      const [straight, bent] = ways[2 * (index % KEYPOINT_COUNT) + offset]!;
      return 200 + straight! * angle + bent! * angle * angle + errorPixels * random.normal();
    });
  return {
    frames: FRAMES,
    seconds: Float64Array.from({ length: FRAMES }, (_, frame) => secondsOf(frame)),
    x: places(0),
    y: places(1),
    seen: new Uint8Array(FRAMES * KEYPOINT_COUNT).fill(1),
    standardErrorPixels: new Float32Array(FRAMES * KEYPOINT_COUNT).fill(ERROR_PIXELS),
  } as Body;
}

function measuredAngle(errorDegrees: number): Samples {
  const random = randomStream(2, 'angle');
  const seconds = Float64Array.from({ length: FRAMES }, (_, frame) => secondsOf(frame));
  return {
    seconds,
    values: seconds.map((at) => trueDegrees(at) + errorDegrees * random.normal()),
    standardErrors: new Float64Array(FRAMES).fill(ANGLE_ERROR),
  };
}

function rootMeanSquareError({ seconds, values }: Samples): number {
  const squares = values.map((value, i) => (value - trueDegrees(seconds[i]!)) ** 2);
  return Math.sqrt(squares.reduce((sum, square) => sum + square, 0) / squares.length);
}

describe('an angle steadied by the pose of the whole body', () => {
  it('errs half as much where the body shows the angle well: the mean of two measures, one of them good', () => {
    const measured = measuredAngle(ANGLE_ERROR);
    const steadied = steadiedByPose(measured, bodyFollowing(trueDegrees), 0, 20);
    expect(rootMeanSquareError(measured)).toBeCloseTo(ANGLE_ERROR, 0);
    expect(rootMeanSquareError(steadied)).toBeLessThan(0.55 * ANGLE_ERROR);
  });

  it('is not bent by it: an angle without error stays what it is', () => {
    const exact = measuredAngle(0);
    expect(rootMeanSquareError(steadiedByPose(exact, bodyFollowing(trueDegrees, 0), 0, 20))).toBeLessThan(
      0.01,
    );
  });

  it('stays as it is where the body goes another way than the joint', () => {
    const measured = measuredAngle(ANGLE_ERROR);
    const elsewhere = bodyFollowing((seconds) => 60 + 50 * Math.sin(1.7 * seconds));
    expect(steadiedByPose(measured, elsewhere, 0, 20)).toBe(measured);
  });

  it('stays as it is outside the stretch that was asked for', () => {
    const measured = measuredAngle(ANGLE_ERROR);
    const { values } = steadiedByPose(measured, bodyFollowing(trueDegrees), 5, 15);
    expect(values.slice(0, 150)).toEqual(measured.values.slice(0, 150));
    expect(values.slice(451)).toEqual(measured.values.slice(451));
    expect(values.slice(150, 451)).not.toEqual(measured.values.slice(150, 451));
  });

  it('bridges frames in which a keypoint was not seen, and leaves out one that mostly was not', () => {
    const measured = measuredAngle(ANGLE_ERROR);
    const body = bodyFollowing(trueDegrees);
    const wild = 1e4;
    body.seen.forEach((_, index) => {
      const [frame, keypoint] = [Math.floor(index / KEYPOINT_COUNT), index % KEYPOINT_COUNT];
      const hidden = keypoint === 9 ? frame % 3 > 0 : keypoint === 10 && frame % 11 === 0;
      if (!hidden) return;
      body.seen[index] = 0;
      body.x[index] = wild;
    });
    expect(rootMeanSquareError(steadiedByPose(measured, body, 0, 20))).toBeLessThan(0.55 * ANGLE_ERROR);
  });

  it('stays as it is where there are too few frames to learn from', () => {
    const measured = measuredAngle(ANGLE_ERROR);
    expect(steadiedByPose(measured, bodyFollowing(trueDegrees), 0, 1.5)).toBe(measured);
  });
});
