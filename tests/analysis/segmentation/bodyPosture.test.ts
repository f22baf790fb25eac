import { describe, expect, it } from 'vitest';
import { findExercise } from '../../../analysis/exercises/catalogue.js';
import { bodyPosture } from '../../../analysis/segmentation/bodyPosture.js';
import { readBody } from '../../../core/motion/body.js';
import { estimateView } from '../../../core/motion/view.js';
import { KEYPOINT_COUNT, KEYPOINT_INDEX } from '../../../core/pose/keypoints.js';
import { filmed, type Pose, STANDING, times } from '../../core/motion/stickFigure.js';

const curl = (seconds: number): Pose => ({ ...STANDING, elbowFlexion: 60 - 50 * Math.cos(seconds) });

/** How many things stay the same from rep to rep of a curl whose ankles the model puts beside the knees for some frames. */
function features(guessed: (frame: number) => boolean): number {
  const track = filmed(times(12), curl, { azimuthDegrees: 90, torsoPixels: 150 }, { pixels: 1, seed: 5 });
  const [x, y] = [Float32Array.from(track.x), Float32Array.from(track.y)];
  for (let frame = 0; frame < track.seconds.length; frame += 1) {
    if (!guessed(frame)) continue;
    for (const side of ['left', 'right'] as const) {
      const at = (joint: 'knee' | 'ankle') => frame * KEYPOINT_COUNT + KEYPOINT_INDEX[`${side}-${joint}`];
      x[at('ankle')] = x[at('knee')]! + 100;
      y[at('ankle')] = y[at('knee')]! + 10;
    }
  }
  const body = readBody({ ...track, x, y });
  return bodyPosture(body, findExercise('curl'), 'left', estimateView(body, 0, 12)).length;
}

describe('what stays the same from rep to rep', () => {
  it('is not told by a joint that jumps to and fro, as no joint does', () => {
    const steady = features(() => false);
    expect(features((frame) => frame % 20 < 10)).toBe(steady - 1);
    // Once is a change of posture.
    expect(features((frame) => frame > 180)).toBe(steady);
  });
});
