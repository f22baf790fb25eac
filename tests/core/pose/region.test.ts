import { describe, expect, test } from 'vitest';
import { KEYPOINT_INDEX, type Keypoint } from '../../../core/pose/keypoints.js';
import { squareAroundBody, toPicture, wholePicture, withinPicture } from '../../../core/pose/region.js';

/** Keypoints with score 1 at the given pixels; all others unseen at 0, 0. */
function body(at: Partial<Record<Keypoint, readonly [number, number]>>): Float32Array {
  const points = new Float32Array(17 * 3);
  for (const [name, [x, y]] of Object.entries(at)) {
    points.set([x, y, 1], KEYPOINT_INDEX[name as Keypoint] * 3);
  }
  return points;
}

describe('region around a body', () => {
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
    // The box is 160 wide and 800 high; a fifth more is 960, more than 2.5 torsos of 301.
    const region = withinPicture(squareAroundBody([points]), { width: 1080, height: 1920 });
    expect(region).toEqual({ centerX: 560, centerY: 1100, side: 960 });
    const corner = toPicture(region, 0, 0);
    const opposite = toPicture(region, 1, 1);
    expect(corner.y / 1920).toBeCloseTo(0.322917, 6);
    expect(opposite.y / 1920).toBeCloseTo(0.822917, 6);
    expect(corner.x / 1080).toBeCloseTo(0.074074, 6);
    expect(opposite.x / 1080).toBeCloseTo(0.962963, 6);
  });

  test('every posture has its place in it', () => {
    const low = body({ 'left-wrist': [400, 500], 'left-ankle': [420, 900] });
    const high = body({ 'left-wrist': [440, 100], 'left-ankle': [420, 900] });
    expect(squareAroundBody([low, high])).toEqual({ x: 420, y: 500, half: 480 });
  });

  test('limbs that go unseen have their room all the same', () => {
    const points = body({ 'left-shoulder': [300, 200], 'left-hip': [300, 400] });
    expect(squareAroundBody([points])).toEqual({ x: 300, y: 300, half: 250 });
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
    const points = body({ 'left-wrist': [10, 240], 'right-wrist': [630, 240] });
    // Six fifths of 620 would be asked; the edges are 320 away.
    expect(squareAroundBody([points]).half).toBeCloseTo(372, 9);
    expect(withinPicture(squareAroundBody([points]), { width: 640, height: 480 })).toEqual({
      ...{ centerX: 320, centerY: 240, side: 640 },
    });
  });
});
