import { describe, expect, it } from 'vitest';
import { analyzeSet } from '../../analysis/analyzeSet.js';
import { findExercise } from '../../analysis/exercises/catalogue.js';
import { sceneFacts } from '../../fixtures/lifter/frameTimes.js';
import { USUAL_POSE_NOISE } from '../../fixtures/lifter/keypointNoise.js';
import { simulatedTrack } from '../../fixtures/lifter/keypoints.js';
import { stagingOf } from '../../fixtures/lifter/postures/stagings.js';
import type { SceneRep } from '../../fixtures/lifter/scene.js';
import { scene } from '../../fixtures/lifter/sceneDefaults.js';

/**
 * Seen on film: from behind, hands overhead, one wrist's point jumps to the other wrist for a few frames at a time; a
 * plain count of the elbow's turns then doubles.
 */
function countOf(exercise: string, seed: number, reps: number): number {
  const { stretched, contracted } = stagingOf(exercise);
  const rep: SceneRep = {
    seconds: { eccentric: 2, stretchedHold: 0.4, concentric: 1, contractedHold: 0.6 },
    stretchedDegrees: stretched,
    contractedDegrees: contracted,
    profile: 'smooth',
  };
  const filmed = scene({
    name: `${exercise} ${seed}`,
    seed,
    exercise,
    timeline: [
      {
        kind: 'bout',
        side: 'both',
        reps: Array.from({ length: reps }, () => rep),
        settleSeconds: 1,
        afterSeconds: 1,
      },
    ],
    camera: { azimuthDegrees: -90 },
  });
  // Twice as many half seconds with a jump as is usual.
  const track = simulatedTrack(filmed, { ...USUAL_POSE_NOISE, swaps: 0.25 });
  const { report } = analyzeSet(track, sceneFacts(filmed), {
    exercise: findExercise(exercise),
    exerciseChosenBy: 'user',
    plan: null,
    side: null,
    mirrored: false,
  });
  return report.bouts.reduce((sum, bout) => sum + bout.summary.completeReps, 0);
}

describe('from behind with wrists that jump to each other', () => {
  it.each([1, 2, 3, 4, 5, 6])(
    'counts pulldowns and pull-ups exactly (seed %d)',
    { timeout: 60_000 },
    (seed) => {
      expect(countOf('pulldown', seed, 5)).toBe(5);
      expect(countOf('pull-up', seed, 5)).toBe(5);
    },
  );
});
