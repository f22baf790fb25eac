import { describe, expect, it } from 'vitest';
import type { SetReport } from '../../../../analysis/report/setReport.js';
import { shownFigure } from '../../../../cli/views/figure/shownFigure.js';
import { KEYPOINT_COUNT, KEYPOINT_INDEX, type Keypoint } from '../../../../core/pose/keypoints.js';
import { sampleSet } from '../page/sampleSet.js';

const { analysis, track } = sampleSet({ framesPerSecond: 5 });
const { report } = analysis;

function valueAt(values: Float32Array, seconds: number, keypoint: Keypoint): number {
  const frame = track.seconds.findIndex((at) => at >= seconds);
  return values[frame * KEYPOINT_COUNT + KEYPOINT_INDEX[keypoint]]!;
}

const middleOf = (bout: number) => (report.bouts[bout]!.startSeconds + report.bouts[bout]!.endSeconds) / 2;

describe('shownFigure', () => {
  it('leaves the far limbs of a side view out, and both sides in between the bouts', () => {
    const { score } = shownFigure(track, report);
    expect(valueAt(score, middleOf(0), 'left-wrist')).toBeGreaterThan(0);
    expect(valueAt(score, middleOf(0), 'right-wrist')).toBe(0);
    expect(valueAt(score, middleOf(1), 'left-wrist')).toBe(0);
    expect(valueAt(score, middleOf(1), 'right-wrist')).toBeGreaterThan(0);
    const between = (report.bouts[0]!.endSeconds + report.bouts[1]!.startSeconds) / 2;
    expect(valueAt(score, between, 'right-wrist')).toBeGreaterThan(0);
  });

  it('keeps both sides where the camera stands in front', () => {
    const bouts = report.bouts.map((bout) => ({ ...bout, view: { ...bout.view, facing: 'front' as const } }));
    expect(shownFigure(track, { ...report, bouts }).score).toEqual(track.score);
  });

  it('calls the limbs of a mirror image by the lifter’s own sides, in the same places', () => {
    const mirrored: SetReport = { ...report, bouts: [], film: { ...report.film, mirrored: true } };
    const plain: SetReport = { ...report, bouts: [] };
    const at = middleOf(0);
    const own = shownFigure(track, mirrored);
    const asLabelled = shownFigure(track, plain);
    expect(valueAt(own.x, at, 'right-wrist')).toBe(valueAt(asLabelled.x, at, 'left-wrist'));
    expect(valueAt(own.x, at, 'right-wrist')).not.toBe(valueAt(asLabelled.x, at, 'right-wrist'));
    expect(valueAt(own.y, at, 'left-wrist')).toBe(valueAt(asLabelled.y, at, 'right-wrist'));
    expect(valueAt(own.x, at, 'nose')).toBe(valueAt(track.x, at, 'nose'));
  });
});
