import type { Body } from '../../core/motion/body.js';
import { jointSamples, trunkLean } from '../../core/motion/jointSamples.js';
import { positionSamples } from '../../core/motion/positions.js';
import type { View } from '../../core/motion/view.js';
import type { Side } from '../../core/pose/keypoints.js';
import type { Exercise } from '../exercises/exercise.js';
import type { Companion, Posture, PostureFeature } from './posture.js';

/** Differences at like instants of two reps that no lifter makes within one set. */
const TRUNK_DEGREES = 25;
const JOINT_DEGREES = 45;
const POSITION_TORSOS = 0.5;

/**
 * What stays the same from rep to rep while an exercise is done: the trunk's lean and place for all, the legs for
 * work of the arms, the feet for work of the legs, and the joint that moves along with the driving one.
 */
export function bodyPosture(body: Body, exercise: Exercise, side: Side, view: View): Posture {
  const armWork = exercise.limbs === 'one-arm' || exercise.limbs === 'two-arms';
  const joint = (name: Parameters<typeof jointSamples>[1]): PostureFeature => ({
    samples: jointSamples(body, name, side, view),
    tolerance: JOINT_DEGREES,
  });
  const place = (
    keypoint: Parameters<typeof positionSamples>[1],
    axis: 'height' | 'across',
  ): PostureFeature => ({
    samples: positionSamples(body, keypoint, axis),
    tolerance: POSITION_TORSOS,
  });
  const features: PostureFeature[] = [
    { samples: trunkLean(body, view), tolerance: TRUNK_DEGREES },
    place(`${side}-shoulder`, 'across'),
    place(`${side}-shoulder`, 'height'),
  ];
  if (armWork) {
    features.push(joint('knee-flexion'), place(`${side}-hip`, 'across'));
    if (exercise.drivingAngle === 'elbow-flexion') features.push(joint('shoulder-elevation'));
  } else {
    features.push(place(`${side}-ankle`, 'across'), place(`${side}-ankle`, 'height'));
  }
  return features;
}

/** Least changes from the contracted to the stretched end in a rep of usual size, well under what such reps show. */
const HIPS_SINK_TORSOS = 0.3;
const TRUNK_LEANS_DEGREES = 15;

/** What must move along with the driving angle for a movement to be this exercise. */
export function bodyCompanions(body: Body, exercise: Exercise, side: Side, view: View): readonly Companion[] {
  switch (exercise.companion) {
    case 'hips-sink':
      return [{ samples: positionSamples(body, `${side}-hip`, 'height'), leastChange: -HIPS_SINK_TORSOS }];
    case 'trunk-leans':
      // From front or back a lean towards the camera shows in no angle.
      return view.forward === 0 ? [] : [{ samples: trunkLean(body, view), leastChange: TRUNK_LEANS_DEGREES }];
    default:
      return [];
  }
}
