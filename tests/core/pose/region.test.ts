import { describe, expect, test } from 'vitest';
import { KEYPOINT_INDEX, type Keypoint } from '../../../core/pose/keypoints.js';
import { hipMidpoint, reach, squareRegion, toPicture, wholePicture } from '../../../core/pose/region.js';

/** Keypoints with score 1 at the given pixels; all others unseen at 0, 0. */
function body(at: Partial<Record<Keypoint, readonly [number, number]>>): Float32Array {
  const points = new Float32Array(17 * 3);
  for (const [name, [x, y]] of Object.entries(at)) {
    points.set([x, y, 1], KEYPOINT_INDEX[name as Keypoint] * 3);
  }
  return points;
}

// Source of the rule and its factors: tensorflow/tfjs-models, pose-detection/src/movenet/crop_utils.ts
// (the same rule as in Google's published MoveNet notebook). The numbers were worked out by hand from it.
describe('region of one frame', () => {
  test('a standing lifter in a 1080 × 1920 film', () => {
    const points = body({
      'left-hip': [500, 1000],
      'right-hip': [580, 1000],
      'left-shoulder': [480, 700],
      'right-shoulder': [600, 700],
      'left-wrist': [640, 900],
      'left-ankle': [520, 1500],
      'right-ankle': [560, 1500],
    });
    // half = max(1.9 · 60, 1.9 · 300, 1.2 · 500, 1.2 · 100) = 600
    const hips = hipMidpoint(points);
    const region = squareRegion(hips, reach(points, hips), { width: 1080, height: 1920 });
    expect(region).toEqual({ centerX: 540, centerY: 1000, side: 1200 });
    const corner = toPicture(region, 0, 0);
    const opposite = toPicture(region, 1, 1);
    expect(corner.y / 1920).toBeCloseTo(0.208333, 6);
    expect(opposite.y / 1920).toBeCloseTo(0.833333, 6);
    expect(corner.x / 1080).toBeCloseTo(-0.055556, 6);
    expect(opposite.x / 1080).toBeCloseTo(1.055556, 6);
  });

  test('the whole picture padded to a square', () => {
    const landscape = wholePicture({ width: 1920, height: 1080 });
    expect(toPicture(landscape, 0, 0).y / 1080).toBeCloseTo(-0.388889, 6);
    expect(landscape.side / 1080).toBeCloseTo(1.777778, 6);
    expect(toPicture(landscape, 0, 0).x).toBe(0);
    const portrait = wholePicture({ width: 1080, height: 1920 });
    expect(toPicture(portrait, 0, 0).x / 1080).toBeCloseTo(-0.388889, 6);
    expect(portrait.side / 1080).toBeCloseTo(1.777778, 6);
  });

  test('a body that fills the picture is cut out no further than to its farthest edge', () => {
    const points = body({
      'left-hip': [380, 300],
      'right-hip': [420, 300],
      'left-shoulder': [380, 40],
      'right-shoulder': [420, 40],
      'left-ankle': [400, 479],
    });
    const hips = hipMidpoint(points);
    // 1.9 · 260 = 494 would be asked; the left edge is 400 away.
    expect(reach(points, hips)).toBeCloseTo(494, 9);
    expect(squareRegion(hips, reach(points, hips), { width: 640, height: 480 })).toEqual({
      ...{ centerX: 400, centerY: 300, side: 800 },
    });
  });
});
