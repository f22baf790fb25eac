import type { Body } from '../../core/motion/body.js';
import { jointSamples, trunkLean } from '../../core/motion/jointSamples.js';
import { positionSamples } from '../../core/motion/positions.js';
import { median } from '../../core/motion/robust.js';
import type { Samples } from '../../core/motion/samples.js';
import type { View } from '../../core/motion/view.js';
import type { Side } from '../../core/pose/keypoints.js';
import type { Exercise } from '../exercises/exercise.js';
import type { Companion, Footing, Held, Posture, PostureFeature } from './posture.js';

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
  const joint = (name: Parameters<typeof jointSamples>[1]): readonly PostureFeature[] => {
    const samples = jointSamples(body, name, side, view);
    return flickers(samples) ? [] : [{ samples, tolerance: JOINT_DEGREES }];
  };
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
    features.push(...joint('knee-flexion'), place(`${side}-hip`, 'across'));
    if (exercise.drivingAngle === 'elbow-flexion') features.push(...joint('shoulder-elevation'));
  } else {
    features.push(place(`${side}-ankle`, 'across'), place(`${side}-ankle`, 'height'));
  }
  return features;
}

/** No joint moves by this much from frame to frame; one that often seems to is hidden, and says nothing of the posture. */
const FLICKER_DEGREES = JOINT_DEGREES / 2;
const MOST_FLICKER_SHARE = 0.05;

function flickers({ values }: Samples): boolean {
  const jumps = values.filter((value, i) => i > 0 && Math.abs(value - values[i - 1]!) > FLICKER_DEGREES);
  return jumps.length > MOST_FLICKER_SHARE * values.length;
}

/** Least changes from the contracted to the stretched end in a rep of usual size, well under what such reps show. */
const HIPS_SINK_TORSOS = 0.3;
const SHOULDERS_SINK_TORSOS = 0.1;
const ELBOWS_SINK_TORSOS = 0.2;
const WRISTS_SINK_TORSOS = 0.3;
/** From the front a flat elbow angle says nothing of the size of the rep, so that only whole ones are told from talking hands. */
const WRISTS_SINK_BEFORE_CAMERA_TORSOS = 0.72;
const WRISTS_RISE_TORSOS = 0.45;
const TRUNK_LEANS_DEGREES = 22;

/** What must move along with the driving angle for a movement to be this exercise. */
export function bodyCompanions(body: Body, exercise: Exercise, side: Side, view: View): readonly Companion[] {
  switch (exercise.companion) {
    case 'hips-sink':
      return [{ samples: positionSamples(body, `${side}-hip`, 'height'), leastChange: -HIPS_SINK_TORSOS }];
    case 'shoulders-sink':
      return [
        { samples: positionSamples(body, `${side}-shoulder`, 'height'), leastChange: -SHOULDERS_SINK_TORSOS },
      ];
    case 'elbows-sink':
      return [{ samples: over(body, side, 'elbow', 'shoulder'), leastChange: -ELBOWS_SINK_TORSOS }];
    case 'wrists-sink':
      return [wristsSink(over(body, side, 'wrist', 'shoulder'), view)];
    case 'wrists-rise':
      return [{ samples: over(body, side, 'wrist', 'shoulder'), leastChange: WRISTS_RISE_TORSOS }];
    case 'trunk-leans':
      // From front or back a lean towards the camera shows in no angle.
      return view.forward === 0 ? [] : [{ samples: trunkLean(body, view), leastChange: TRUNK_LEANS_DEGREES }];
    default:
      return [];
  }
}

function wristsSink(samples: Samples, view: View): Companion {
  return view.degreesOffSide <= FROM_THE_SIDE_DEGREES
    ? { samples, leastChange: -WRISTS_SINK_TORSOS }
    : { samples, leastChange: -WRISTS_SINK_BEFORE_CAMERA_TORSOS, wholeReps: true };
}

/** A trunk that leans less than this, from upright, stands or sits. */
const LEANING_DEGREES = 20;
/** Further from the side than this the lean goes towards the camera or away from it. */
const FROM_THE_SIDE_DEGREES = 60;
/** Shoulders wider than this, in lengths of the trunk as the film shows it, belong to a trunk that leans to or from the camera. */
const UPRIGHT_SHOULDERS_TORSOS = 0.85;
/** A hip this much higher than its knee belongs to somebody who stands; a level thigh has them at one height. */
const LEVEL_THIGH_TORSOS = 0.65;
/** Wrists over the shoulders with straight elbows: about a whole torso; elbows beside the ears: about half of one. */
const HANDS_OVERHEAD_TORSOS = 0.3;
const ELBOWS_OVERHEAD_TORSOS = 0;

/** How the body must be held for a movement to be this exercise; null where the exercise or the view says nothing of it. */
export function bodyHeld(body: Body, exercise: Exercise, side: Side, view: View): Held | null {
  switch (exercise.held) {
    case 'trunk-leaning': {
      if (view.degreesOffSide > FROM_THE_SIDE_DEGREES && leansAlongTheView(body)) return null;
      const lean = trunkLean(body, view);
      return {
        samples: { ...lean, values: lean.values.map(Math.abs) },
        at: 'both-ends',
        least: LEANING_DEGREES,
        most: 180,
      };
    }
    case 'thighs-level':
      return {
        samples: over(body, side, 'hip', 'knee'),
        at: 'both-ends',
        least: Number.NEGATIVE_INFINITY,
        most: LEVEL_THIGH_TORSOS,
      };
    case 'elbows-overhead':
      return {
        samples: over(body, side, 'elbow', 'shoulder'),
        at: 'both-ends',
        least: ELBOWS_OVERHEAD_TORSOS,
        most: Number.POSITIVE_INFINITY,
      };
    case 'hands-overhead-when-straight':
      return {
        samples: over(body, side, 'wrist', 'shoulder'),
        at: 'straight',
        least: HANDS_OVERHEAD_TORSOS,
        most: Number.POSITIVE_INFINITY,
      };
    default:
      return null;
  }
}

/** Whether the trunk looks short beside the shoulders, as it does where it leans towards the camera or away from it. */
function leansAlongTheView(body: Body): boolean {
  const width = positionSamples(body, 'left-shoulder', 'across', 'right-shoulder');
  return (median(Array.from(width.values, Math.abs)) ?? 0) > UPRIGHT_SHOULDERS_TORSOS;
}

/** Where the lifter stands, and how far the feet are apart, in the direction across the picture. */
export function bodyFooting(body: Body, side: Side): Footing {
  const apart = positionSamples(body, 'left-ankle', 'across', 'right-ankle');
  return {
    feetApart: { ...apart, values: apart.values.map(Math.abs) },
    place: positionSamples(body, `${side}-shoulder`, 'across'),
  };
}

/** How much higher one joint of a side is than another, torso lengths. */
function over(body: Body, side: Side, upper: 'wrist' | 'elbow' | 'hip', lower: 'shoulder' | 'knee'): Samples {
  return positionSamples(body, `${side}-${upper}`, 'height', `${side}-${lower}`);
}
