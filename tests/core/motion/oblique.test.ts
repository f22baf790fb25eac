import { describe, expect, it } from 'vitest';
import { findExercise } from '../../../analysis/exercises/catalogue.js';
import { toRadians } from '../../../core/motion/angles.js';
import { readBody } from '../../../core/motion/body.js';
import { HIP_ABOVE_TORSOS } from '../../../core/motion/jointCentres.js';
import { type JointSamples, jointSamples, meanOfSides } from '../../../core/motion/jointSamples.js';
import { sliceBody } from '../../../core/motion/sliceBody.js';
import { estimateView } from '../../../core/motion/view.js';
import { KEYPOINT_COUNT, KEYPOINT_INDEX } from '../../../core/pose/keypoints.js';
import type { PoseTrack } from '../../../core/pose/track.js';
import { NO_POSE_NOISE } from '../../../fixtures/lifter/keypointNoise.js';
import { simulatedTrack } from '../../../fixtures/lifter/keypoints.js';
import { stagingOf } from '../../../fixtures/lifter/postures/stagings.js';
import { scene } from '../../../fixtures/lifter/sceneDefaults.js';
import { sceneTruth } from '../../../fixtures/lifter/truth.js';

/** Hips where the pose model puts them: above the joint centres, along the trunk (see `jointCentres.ts`). */
function withModelHips(track: PoseTrack, azimuthDegrees: number): PoseTrack {
  const share = HIP_ABOVE_TORSOS * Math.cos(toRadians(azimuthDegrees));
  const raised = (values: Float32Array) =>
    values.map((value, at) => {
      const keypoint = at % KEYPOINT_COUNT;
      const hip = keypoint === KEYPOINT_INDEX['left-hip'] || keypoint === KEYPOINT_INDEX['right-hip'];
      const shoulder = KEYPOINT_INDEX['left-shoulder'] - KEYPOINT_INDEX['left-hip'];
      return hip ? value + (share / (1 + share)) * (values[at + shoulder]! - value) : value;
    });
  return { ...track, x: raised(track.x), y: raised(track.y) };
}

/** Range of the driving angle of two reps of the synthetic lifter: measured and true, from joint centres without noise. */
function measuredRange(
  exercise: string,
  azimuthDegrees: number,
): { readonly measured: number; readonly truth: number; readonly samples: JointSamples } {
  const staging = stagingOf(exercise);
  const seconds = { eccentric: 1.5, stretchedHold: 0.6, concentric: 1.2, contractedHold: 0.6 };
  const rep = {
    seconds,
    stretchedDegrees: staging.stretched,
    contractedDegrees: staging.contracted,
    profile: 'smooth',
  } as const;
  const { limbs, drivingAngle } = findExercise(exercise);
  const oneLimbed = limbs.startsWith('one');
  const film = scene({
    name: `${exercise} ${azimuthDegrees}`,
    seed: 5,
    exercise,
    timeline: [
      {
        kind: 'bout',
        side: oneLimbed ? 'right' : 'both',
        reps: [rep, rep],
        settleSeconds: 1,
        afterSeconds: 1,
      },
    ],
    camera: { azimuthDegrees },
    rest: { tremorDegrees: 0 },
  });
  const bout = sceneTruth(film).bouts[0]!;
  const centres = simulatedTrack(film, NO_POSE_NOISE);
  const track = drivingAngle === 'elbow-flexion' ? centres : withModelHips(centres, azimuthDegrees);
  const body = sliceBody(readBody(track), bout.startSeconds - 1, bout.endSeconds + 1);
  const view = estimateView(body, Number.NEGATIVE_INFINITY, Number.POSITIVE_INFINITY);
  const of = (side: 'left' | 'right') => jointSamples(body, drivingAngle, side, view);
  const samples = view.nearSide === null && !oneLimbed ? meanOfSides(of('left'), of('right')) : of('right');
  const during = (kind: string) => {
    const hold = bout.reps[0]!.phases.find((phase) => phase.kind === kind)!;
    const middle = (hold.startSeconds + hold.endSeconds) / 2;
    const index = samples.seconds.findIndex((time) => time >= middle);
    return samples.values[index]!;
  };
  return {
    measured: Math.abs(during('contracted-hold') - during('stretched-hold')),
    truth: bout.reps[0]!.rangeDegrees,
    samples,
  };
}

describe('range of the synthetic lifter, whose joint angles are known exactly', () => {
  it.each([
    'curl',
    'single-arm-row',
    'bent-over-row',
    'front-raise',
    'triceps-pushdown',
    'squat',
    'hip-hinge',
  ])('%s from the side within 2°, 45° off within 6°', (exercise) => {
    for (const azimuth of [0, 45, -45]) {
      const { measured, truth, samples } = measuredRange(exercise, azimuth);
      expect(samples.degreesTrustworthy).toBe(true);
      expect(Math.abs(measured - truth)).toBeLessThan(azimuth === 0 ? 2 : 6);
    }
  });

  it.each([
    ['lateral-raise', 90],
    ['lateral-raise', -90],
    ['upright-row', 90],
    ['overhead-press', 90],
    ['pulldown', -90],
    ['pull-up', -90],
  ])('%s from %d° round the side within 4°', (exercise, azimuth) => {
    const { measured, truth, samples } = measuredRange(exercise, azimuth);
    expect(samples.degreesTrustworthy).toBe(true);
    expect(Math.abs(measured - truth)).toBeLessThan(4);
  });

  it.each([
    ['curl', 90, 'view-too-oblique'],
    ['squat', 90, 'view-too-oblique'],
    ['pulldown', 0, 'limb-out-of-plane'],
    ['overhead-press', 0, 'limb-out-of-plane'],
    ['lateral-raise', 0, 'view-not-frontal'],
  ])('%s from %d° round the side gives no degrees', (exercise, azimuth, reason) => {
    const { samples } = measuredRange(exercise, azimuth);
    expect(samples.degreesTrustworthy).toBe(false);
    expect(samples.reason).toBe(reason);
  });
});
