import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { inRealTime, unmirrored } from '../../../core/motion/realTime.js';
import { KEYPOINT_COUNT, KEYPOINT_INDEX } from '../../../core/pose/keypoints.js';
import { anyTrack } from '../pose/inventedTrack.js';
import { filmed, STANDING, times } from './stickFigure.js';

describe('a mirror image', () => {
  test('undone, it shows the lifter’s own right arm where the picture showed a left one', () => {
    // From in front, the right arm out to the side: in the mirror that is the left arm, on the other side.
    const track = filmed(times(0.1), () => ({ ...STANDING, shoulderAbduction: 80 }), {
      azimuthDegrees: 0,
      torsoPixels: 150,
    });
    const [wrist, other] = [KEYPOINT_INDEX['left-wrist'], KEYPOINT_INDEX['right-wrist']];
    const own = unmirrored(track);
    expect(own.x[other]).toBeCloseTo(track.width - track.x[wrist]!, 3);
    expect(own.y[other]).toBe(track.y[wrist]);
    expect(own.score[other]).toBe(track.score[wrist]);
    const nose = KEYPOINT_INDEX.nose;
    expect(own.x[nose]).toBeCloseTo(track.width - track.x[nose]!, 3);
  });

  test('undone twice, it is what it was', () => {
    fc.assert(
      fc.property(anyTrack, (track) => {
        const twice = unmirrored(unmirrored(track));
        expect(twice.score).toEqual(track.score);
        expect(twice.y).toEqual(track.y);
        twice.x.forEach((value, index) => void expect(Math.abs(value - track.x[index]!)).toBeLessThan(0.01));
        expect(twice.x.length % KEYPOINT_COUNT).toBe(0);
      }),
      { numRuns: 20 },
    );
  });
});

describe('real time', () => {
  test('of a film stored four times too slowly passes four times as fast', () => {
    const track = filmed(times(1), () => STANDING, { azimuthDegrees: 0, torsoPixels: 150 });
    expect(inRealTime(track, 4).seconds[8]).toBeCloseTo(8 / 30 / 4, 9);
    expect(inRealTime(track, 1)).toBe(track);
  });
});
