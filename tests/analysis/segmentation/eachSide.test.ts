import { describe, expect, it } from 'vitest';
import { analyzeSet } from '../../../analysis/analyzeSet.js';
import { findExercise } from '../../../analysis/exercises/catalogue.js';
import type { SetReport } from '../../../analysis/report/setReport.js';
import { KEYPOINT_COUNT, KEYPOINTS } from '../../../core/pose/keypoints.js';
import type { PoseTrack } from '../../../core/pose/track.js';
import { sceneFacts } from '../../../fixtures/lifter/frameTimes.js';
import { scene } from '../../../fixtures/lifter/sceneDefaults.js';
import { filmed, type Pose, STANDING, times } from '../../core/motion/stickFigure.js';

const SECONDS_A_REP = 4;

/** From 0 to 1 and back every four seconds: 1 s still, 1 s up, 1 s still, 1 s down. */
function wave(seconds: number): number {
  const at = ((seconds % SECONDS_A_REP) + SECONDS_A_REP) % SECONDS_A_REP;
  const smooth = (share: number) => (1 - Math.cos(Math.PI * Math.min(1, Math.max(0, share)))) / 2;
  return smooth(at - 1) - smooth(at - 3);
}

/** The left points of one track with the right points of another. */
function halves(left: PoseTrack, right: PoseTrack): PoseTrack {
  const merged = (name: 'x' | 'y' | 'score') =>
    left[name].map((value, at) =>
      KEYPOINTS[at % KEYPOINT_COUNT]!.startsWith('right') ? right[name][at]! : value,
    );
  return { ...left, x: merged('x'), y: merged('y'), score: merged('score') };
}

function analyzed(track: PoseTrack, exercise: string): SetReport {
  const facts = sceneFacts(scene({ name: exercise, seed: 1, exercise, timeline: [] }));
  return analyzeSet(track, facts, {
    exercise: findExercise(exercise),
    exerciseChosenBy: 'user',
    plan: null,
    side: null,
    mirrored: false,
  }).report;
}

describe('two arms seen from the front', () => {
  const raise =
    (late: number, most: number) =>
    (seconds: number): Pose => ({ ...STANDING, shoulderAbduction: 8 + (most - 8) * wave(seconds - late) });
  const film = (late: number, most: number) =>
    filmed(
      times(17),
      raise(late, most),
      { azimuthDegrees: 0, torsoPixels: 150 },
      { pixels: 1, seed: 4 + late },
    );

  it('tells which one leads, by how much, and how far each went', () => {
    const { bouts } = analyzed(halves(film(0, 85), film(0.25, 70)), 'lateral-raise');
    expect(bouts).toHaveLength(1);
    const [bout] = bouts;
    expect(bout!.leadingSide?.side).toBe('left');
    expect(Math.abs(bout!.leadingSide!.seconds - 0.25)).toBeLessThan(bout!.leadingSide!.uncertaintySeconds);
    const range = (side: 'left' | 'right') => bout!.sides!.find((one) => one.side === side)!;
    expect(Math.abs(range('left').rangeDegrees! - 77)).toBeLessThan(range('left').uncertaintyDegrees!);
    expect(Math.abs(range('right').rangeDegrees! - 62)).toBeLessThan(range('right').uncertaintyDegrees!);
  });

  it('says nothing of a lead within one frame', () => {
    const { bouts } = analyzed(halves(film(0, 85), film(0.02, 85)), 'lateral-raise');
    expect(bouts[0]!.leadingSide).toBeNull();
  });
});

describe('a row whose shoulder shortens while the elbow does not', () => {
  const pose = (seconds: number): Pose => {
    const tired = seconds > 3 * SECONDS_A_REP;
    return {
      ...STANDING,
      trunkLean: 60,
      hipFlexion: 70,
      kneeFlexion: 20,
      elbowFlexion: 10 + 90 * wave(seconds),
      shoulderFlexion: 65 - (tired ? 45 : 75) * wave(seconds),
    };
  };

  it('is shortened all the same: rows shorten when elbow or shoulder does', () => {
    const track = filmed(times(25), pose, { azimuthDegrees: 90, torsoPixels: 150 }, { pixels: 1, seed: 3 });
    const { bouts } = analyzed(track, 'single-arm-row');
    expect(bouts).toHaveLength(1);
    expect(bouts[0]!.reps.map(({ range }) => range?.shortened)).toEqual([
      false,
      false,
      false,
      true,
      true,
      true,
    ]);
  });
});
