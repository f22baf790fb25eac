import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { Body } from '../../../core/motion/body.js';
import { limbInclinations } from '../../../core/motion/limbInclinations.js';
import { KEYPOINT_COUNT, KEYPOINT_INDEX } from '../../../core/pose/keypoints.js';

const FRAMES = 60;
const FOREARM = 2;
const RADIANS = Math.PI / 180;

/** A forearm of 100 pixels turning in the sagittal plane, as a camera far away sees it from so many degrees off the side. */
function turningForearm(leanAt: (frame: number) => number, degreesOffSide: number): Body {
  const x = new Float32Array(FRAMES * KEYPOINT_COUNT);
  const y = new Float32Array(FRAMES * KEYPOINT_COUNT);
  for (let frame = 0; frame < FRAMES; frame++) {
    const wrist = frame * KEYPOINT_COUNT + KEYPOINT_INDEX['left-wrist'];
    x[wrist] = 100 * Math.sin(leanAt(frame) * RADIANS) * Math.cos(degreesOffSide * RADIANS);
    y[wrist] = 100 * Math.cos(leanAt(frame) * RADIANS);
  }
  const seconds = Float64Array.from({ length: FRAMES }, (_, frame) => frame / 30);
  return {
    ...{ x, y, seconds, frames: FRAMES },
    seen: new Uint8Array(FRAMES * KEYPOINT_COUNT).fill(1),
  } as unknown as Body;
}

describe('how a limb leans', () => {
  it('is the lean in the plane of movement, from whichever side it is filmed', () => {
    fc.assert(
      fc.property(fc.double({ min: 0, max: 60, noNaN: true }), (off) => {
        const lean = (frame: number) => 5 + 2 * frame;
        const { values } = limbInclinations(turningForearm(lean, off), ['left'], off)[FOREARM]!;
        values.forEach((value, frame) => {
          expect(value).toBeCloseTo(lean(frame), 2);
        });
      }),
    );
  });

  it('never more than doubles what is across the picture', () => {
    const { values } = limbInclinations(
      turningForearm(() => 45, 60),
      ['left'],
      85,
    )[FOREARM]!;
    expect(values[0]).toBeCloseTo(45, 2);
  });

  it('runs on where the limb turns past the vertical', () => {
    const lean = (frame: number) => 150 + frame;
    const { values } = limbInclinations(turningForearm(lean, 45), ['left'], 45)[FOREARM]!;
    expect(values[FRAMES - 1]! - values[0]!).toBeCloseTo(FRAMES - 1, 2);
  });

  it('tells nothing of frames in which an end is hidden', () => {
    const body = turningForearm(() => 10, 45);
    body.seen[3 * KEYPOINT_COUNT + KEYPOINT_INDEX['left-elbow']] = 0;
    const { seconds } = limbInclinations(body, ['left'], 45)[FOREARM]!;
    expect(seconds.length).toBe(FRAMES - 1);
    expect(seconds).not.toContain(3 / 30);
  });

  it('tells both sides, limb by limb', () => {
    expect(
      limbInclinations(
        turningForearm(() => 0, 45),
        ['left', 'right'],
        45,
      ),
    ).toHaveLength(10);
  });
});
