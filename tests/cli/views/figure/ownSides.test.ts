import { describe, expect, it } from 'vitest';
import { withOwnSides } from '../../../../cli/views/figure/ownSides.js';
import { KEYPOINT_COUNT, KEYPOINT_INDEX, KEYPOINTS } from '../../../../core/pose/keypoints.js';
import { sampleSet } from '../../page/sampleSet.js';

describe('withOwnSides', () => {
  const { track } = sampleSet({ framesPerSecond: 5 });

  it('leaves a film that is no mirror image as it is', () => {
    expect(withOwnSides(track, false)).toBe(track);
  });

  it('gives the joints of a mirror image the names of the other side, in the same places', () => {
    const own = withOwnSides(track, true);
    const last = (track.seconds.length - 1) * KEYPOINT_COUNT;
    for (const frame of [0, last]) {
      const [left, right] = [KEYPOINT_INDEX['left-wrist'], KEYPOINT_INDEX['right-wrist']];
      expect(own.x[frame + left]).toBe(track.x[frame + right]);
      expect(own.y[frame + right]).toBe(track.y[frame + left]);
      expect(own.score[frame + KEYPOINT_INDEX.nose]).toBe(track.score[frame + KEYPOINT_INDEX.nose]);
    }
    expect(KEYPOINTS).toHaveLength(17);
    expect(withOwnSides(own, true).x).toEqual(track.x);
  });
});
