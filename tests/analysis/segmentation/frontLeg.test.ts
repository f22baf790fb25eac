import { describe, expect, it } from 'vitest';
import { frontLeg } from '../../../analysis/segmentation/frontLeg.js';
import type { Body } from '../../../core/motion/body.js';
import type { View } from '../../../core/motion/view.js';
import { KEYPOINT_COUNT, KEYPOINT_INDEX, type Keypoint } from '../../../core/pose/keypoints.js';
import { evaluationScenes } from '../../../fixtures/evaluation/sceneList.js';
import { analyzed } from '../../../fixtures/evaluation/simulatedRun.js';
import { sceneFacts } from '../../../fixtures/lifter/frameTimes.js';
import { USUAL_POSE_NOISE } from '../../../fixtures/lifter/keypointNoise.js';
import { simulatedTrack } from '../../../fixtures/lifter/keypoints.js';

/** One picture of a body with a trunk of 100 pixels; keypoints that are not named were not seen. */
function bodyWith(across: Partial<Record<Keypoint, number>>): Body {
  const x = new Float32Array(KEYPOINT_COUNT);
  const seen = new Uint8Array(KEYPOINT_COUNT);
  for (const [name, place] of Object.entries(across)) {
    x[KEYPOINT_INDEX[name as Keypoint]] = place;
    seen[KEYPOINT_INDEX[name as Keypoint]] = 1;
  }
  return { frames: 1, seconds: Float64Array.of(1), x, seen, torsoPixels: 100 } as Body;
}
const facing = (forward: View['forward']) => ({ forward }) as View;

describe('the leg in front', () => {
  it('is the one whose ankle lies farther to where the lifter faces', () => {
    const body = bodyWith({ 'left-ankle': 300, 'right-ankle': 220 });
    expect(frontLeg(body, facing(1), 0, 2)).toBe('left');
    expect(frontLeg(body, facing(-1), 0, 2)).toBe('right');
  });

  it('is told from an oblique view by what the feet lie apart more than the hips do', () => {
    // Facing the camera and a little to the right: the left hip lies to the right, and so does the left foot.
    const hips = { 'left-hip': 280, 'right-hip': 240 };
    expect(frontLeg(bodyWith({ ...hips, 'left-ankle': 270, 'right-ankle': 250 }), facing(1), 0, 2)).toBe(
      'right',
    );
    expect(frontLeg(bodyWith({ ...hips, 'left-ankle': 300, 'right-ankle': 220 }), facing(1), 0, 2)).toBe(
      'left',
    );
  });

  it.each([
    ['the view does not tell where the lifter faces', { 'left-ankle': 300, 'right-ankle': 220 }, 0],
    ['the feet stand beside one another', { 'left-ankle': 300, 'right-ankle': 292 }, 1],
    ['one foot is not seen', { 'left-ankle': 300 }, 1],
  ] as const)('is not told where %s', (_, across, forward) => {
    expect(frontLeg(bodyWith(across), facing(forward), 0, 2)).toBeNull();
  });

  // Of 16 series of simulated films the four in which a view taken for one from front or back hid which leg it is.
  it.each([
    [2, 'split-squat-45-off-again-2'],
    [3, 'split-squat-45-off-3'],
    [8, 'split-squat-45-off-8'],
    [14, 'split-squat-45-off-14'],
  ])('is named and timed in a film seen obliquely (series %i, %s)', (series, name) => {
    const one = evaluationScenes(series).find(({ scene }) => scene.name === name)!;
    const result = analyzed(one, simulatedTrack(one.scene, USUAL_POSE_NOISE), sceneFacts(one.scene));
    expect(result).toMatchObject({ missed: 0, invented: 0, sidesWrong: 0, sidesRight: result.trueReps });
  });
});
