import { mean } from 'simple-statistics';
import { describe, expect, it } from 'vitest';
import { analyzeSet } from '../../analysis/analyzeSet.js';
import { findExercise } from '../../analysis/exercises/catalogue.js';
import { sceneFacts } from '../../fixtures/lifter/frameTimes.js';
import { USUAL_POSE_NOISE } from '../../fixtures/lifter/keypointNoise.js';
import { simulatedTrack } from '../../fixtures/lifter/keypoints.js';
import { stagingOf } from '../../fixtures/lifter/postures/stagings.js';
import { randomStream } from '../../fixtures/lifter/random.js';
import type { Scene, SceneRep, TimelineItem } from '../../fixtures/lifter/scene.js';
import { scene } from '../../fixtures/lifter/sceneDefaults.js';
import { sceneTruth } from '../../fixtures/lifter/truth.js';

const SEEDS = 20;
const EXERCISES = ['single-arm-row', 'single-arm-curl'] as const;
/** Of twenty seeds at three measures, the share that must come out as no difference. */
const LEAST_SHARE = 0.95;
/** Share of the range that the second arm lacks: well beyond what one camera sees of two sides, about 20°. */
const LOST = 0.45;

/** Both arms one after the other, the lifter turning round; the second arm's reps may differ. */
function compared(exercise: string, seed: number, second: Partial<Seconds> & { readonly lost?: number }) {
  const random = randomStream(seed, 'identical sides');
  const { stretched, contracted } = stagingOf(exercise);
  const usual: Seconds = { eccentric: 2, stretchedHold: 0.4, concentric: 1, contractedHold: 0.5 };
  const reps = ({ lost = 0, ...changes }: typeof second): readonly SceneRep[] =>
    Array.from({ length: 3 }, () => ({
      // What a person varies from rep to rep.
      seconds: Object.fromEntries(
        Object.entries({ ...usual, ...changes }).map(([phase, value]) => [
          phase,
          value * (1 + 0.05 * random.normal()),
        ]),
      ) as unknown as SceneRep['seconds'],
      stretchedDegrees: stretched + random.normal(),
      contractedDegrees: contracted - lost * (contracted - stretched) + random.normal(),
      profile: 'smooth' as const,
    }));
  const bout = (side: 'left' | 'right', of: readonly SceneRep[], turned: boolean): TimelineItem => ({
    kind: 'bout',
    side,
    reps: of,
    settleSeconds: 1,
    afterSeconds: 1,
    turned,
  });
  const filmed = scene({
    name: `${exercise} ${seed}`,
    seed,
    exercise,
    timeline: [
      bout('left', reps({}), false),
      { kind: 'idle', activity: 'walk-about', seconds: 4 },
      bout('right', reps(second), true),
    ],
    camera: { sees: 'left', azimuthDegrees: random.between(-8, 8) },
  });
  const { report } = analyzeSet(simulatedTrack(filmed, USUAL_POSE_NOISE), sceneFacts(filmed), {
    exercise: findExercise(exercise),
    exerciseChosenBy: 'user',
    plan: null,
    side: null,
    mirrored: false,
  });
  return { symmetry: report.symmetry, trueLoweringDifference: trueLoweringDifference(filmed) };
}

/** Left minus right of the mean lowering, seconds, by the definition of stillness. */
function trueLoweringDifference(filmed: Scene): number {
  const [left, right] = (['left', 'right'] as const).map((side) => {
    const lowerings = sceneTruth(filmed)
      .bouts.flatMap(({ reps }) => reps)
      .filter((rep) => rep.side === side)
      .flatMap(({ phases }) => phases.filter(({ kind }) => kind === 'eccentric'));
    return mean(lowerings.map(({ startSeconds, endSeconds }) => endSeconds - startSeconds));
  });
  return left! - right!;
}

interface Seconds {
  readonly eccentric: number;
  readonly stretchedHold: number;
  readonly concentric: number;
  readonly contractedHold: number;
}

describe('two arms that did the same', () => {
  it('show no difference in at least 95 % of noisy tracks', { timeout: 300_000 }, () => {
    const measures = Array.from({ length: SEEDS }, (_, seed) =>
      compared(EXERCISES[seed % EXERCISES.length]!, seed + 1, {}),
    ).flatMap(({ symmetry }) => {
      expect(symmetry).not.toBeNull();
      return symmetry!.measures.filter(({ measure }) => measure !== 'reps');
    });
    expect(measures.length).toBeGreaterThanOrEqual(0.9 * 3 * SEEDS);
    const same = measures.filter(({ different }) => !different).length;
    expect(same / measures.length).toBeGreaterThanOrEqual(LEAST_SHARE);
  });
});

describe('two arms that differ', () => {
  it.each(EXERCISES)('%s: right in sign and within the interval', { timeout: 120_000 }, (exercise) => {
    const { symmetry, trueLoweringDifference: truth } = compared(exercise, 77, { eccentric: 4, lost: LOST });
    expect(symmetry!.firstSide).toBe('left');
    const of = (measure: string) => symmetry!.measures.find((one) => one.measure === measure)!;
    const lowering = of('eccentric-seconds');
    expect(lowering.different).toBe(true);
    expect(lowering.interval[0]).toBeLessThan(truth);
    expect(lowering.interval[1]).toBeGreaterThan(truth);
    const { stretched, contracted } = stagingOf(exercise);
    const lost = LOST * Math.abs(contracted - stretched);
    const range = of('range');
    expect(range.different).toBe(true);
    expect(range.interval[0]).toBeLessThan(lost);
    expect(range.interval[1]).toBeGreaterThan(lost);
    expect(of('concentric-seconds').different).toBe(false);
  });
});
