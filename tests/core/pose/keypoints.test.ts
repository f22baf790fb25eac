import { expect, test } from 'vitest';
import { KEYPOINT_INDEX, KEYPOINTS, otherSide } from '../../../core/pose/keypoints.js';

// Source: MoveNet SinglePose model card (Google, 2021) and the COCO keypoint annotation format:
// nose, eyes, ears, shoulders, elbows, wrists, hips, knees, ankles, left before right.
test('keypoints come in the order of the COCO data set', () => {
  expect(KEYPOINTS).toEqual([
    'nose',
    ...['eye', 'ear', 'shoulder', 'elbow', 'wrist', 'hip', 'knee', 'ankle'].flatMap((part) => [
      `left-${part}`,
      `right-${part}`,
    ]),
  ]);
  expect(KEYPOINT_INDEX['right-ankle']).toBe(16);
});

test('the other side of the other side is the same keypoint', () => {
  for (const keypoint of KEYPOINTS) expect(otherSide(otherSide(keypoint))).toBe(keypoint);
  expect(otherSide('left-hip')).toBe('right-hip');
  expect(otherSide('nose')).toBe('nose');
});
