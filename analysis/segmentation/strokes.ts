import { steadiedByAngles } from '../../core/motion/anglesInStep.js';
import type { Body } from '../../core/motion/body.js';
import { byEitherLabel } from '../../core/motion/eitherLabel.js';
import {
  type JointSamples,
  jointSamples,
  oneOrBothSides,
  sharedUncertaintyOf,
} from '../../core/motion/jointSamples.js';
import { steadiedByPose } from '../../core/motion/poseRegression.js';
import { sliceBody } from '../../core/motion/sliceBody.js';
import { estimateView, SIDE_VIEW_DEGREES, type View } from '../../core/motion/view.js';
import { viewSpans } from '../../core/motion/viewSpans.js';
import type { Side } from '../../core/pose/keypoints.js';
import type { Exercise } from '../exercises/exercise.js';
import { bodyCompanions, bodyFooting, bodyHeld, bodyPosture } from './bodyPosture.js';
import { clearerLimb } from './clearerLimb.js';
import { frontLeg } from './frontLeg.js';
import { joinAcrossGaps } from './joinAcrossGaps.js';
import { onePerMovement, SEEN_THROUGHOUT_SHARE, usualSize } from './onePerMovement.js';
import { BOTH_SIDES, otherAngles } from './otherAngles.js';
import { retold } from './retold.js';
import { usualExcursion } from './runs.js';
import {
  longestHold,
  type SegmentationRules,
  type SegmentedBout,
  type Stroke,
  segmentStroke,
} from './segmentStroke.js';
import { asTimed, type TrueDegrees, trueDegrees } from './trueDegrees.js';

/** A bout with the view its degrees are read in and the samples they rest on; its `curves` are those that time it. */
export interface ViewedBout extends SegmentedBout, TrueDegrees {
  readonly start: number;
  readonly end: number;
}

/** Seconds around a bout that the second, closer look takes in. */
const MARGIN_SECONDS = 2.5;
/** Seconds around it in which the rest of the body steadies the angle; beyond, the lifter may be doing something else. */
const STEADIED_SECONDS = 1;

export function isOneLimbed(exercise: Exercise): boolean {
  return exercise.limbs === 'one-arm' || exercise.limbs === 'one-leg';
}

/**
 * Finds every bout of an exercise in a film. A first look goes through the film in spans of constant view; each
 * bout found is then looked at again with the view estimated from the bout itself.
 */
export function findBouts(body: Body, rules: SegmentationRules): readonly ViewedBout[] {
  const bouts: ViewedBout[] = [];
  for (const span of viewSpans(body)) {
    const part = sliceBody(body, span.fromSeconds, span.toSeconds);
    for (const limbs of limbChoices(rules.exercise, span.view)) {
      const { stroke } = strokeOf(part, rules.exercise, limbs, span.view);
      for (const found of segmentStroke(stroke, rules, 'coarse')) {
        bouts.push(...closerLook(part, stroke, found, limbs, rules));
      }
    }
  }
  const standsInFront = ({ side, view, start, end }: ViewedBout) =>
    standsInStride(rules.exercise) && frontLeg(body, view, start, end) === side;
  const inOrder = onePerMovement(bouts, standsInFront).toSorted((a, b) => a.start - b.start);
  if (!inOrder.some((bout) => usualSize(bout) >= leastByRangeAlone(rules.exercise))) return [];
  return joinAcrossGaps(inOrder, longestHold(rules)).map((bout) => ({ ...bout, ...spanOfBout(bout) }));
}

/** Where range alone tells the exercise from hands that talk, a film's largest reps reach this share of the least usual one. */
const LEAST_SHARE_BY_RANGE_ALONE = 0.7;

/** Degrees; zero where something beside the joint and the hand tells the exercise. */
function leastByRangeAlone(exercise: Exercise): number {
  const { held, companion = 'none' } = exercise;
  const byRangeAlone = held === undefined && ['none', 'wrists-sink', 'wrists-rise'].includes(companion);
  return byRangeAlone ? LEAST_SHARE_BY_RANGE_ALONE * usualExcursion(exercise) : 0;
}

/** Both feet on the ground, both knees bending, one leg named: the one in front. */
const standsInStride = (exercise: Exercise) =>
  exercise.limbs === 'one-leg' && exercise.companion === 'hips-sink';

type Limbs = { readonly side: Side | 'both'; readonly measured: readonly Side[] };

/**
 * Which limbs to follow: each arm on its own for one-armed work; from the side one limb stands for both, the near one
 * unless the far one can be seen and reads better (`clearerLimb`).
 */
function limbChoices(exercise: Exercise, view: View): readonly Limbs[] {
  if (isOneLimbed(exercise)) {
    return [
      { side: 'left', measured: ['left'] },
      { side: 'right', measured: ['right'] },
    ];
  }
  if (view.nearSide !== null) return [{ side: 'both', measured: [view.nearSide] }];
  return [{ side: 'both', measured: ['left', 'right'] }];
}

function strokeOf(
  body: Body,
  exercise: Exercise,
  limbs: Limbs,
  view: View,
): { readonly stroke: Stroke; readonly driving: JointSamples; readonly seen: Body } {
  const oneForBoth = limbs.side === 'both' && limbs.measured.length === 1;
  // From further round the far limb is a limb of its own in the picture.
  const nearCarriesBoth = oneForBoth && view.degreesOffSide <= SIDE_VIEW_DEGREES;
  const seenOf = (side: Side) => (nearCarriesBoth ? byEitherLabel(body, side) : body);
  const samplesOf = (side: Side) => jointSamples(seenOf(side), exercise.drivingAngle, side, view);
  const sides = oneForBoth ? [clearerLimb(view, samplesOf)] : limbs.measured;
  const each = sides.map((side) => ({ side, samples: samplesOf(side) }));
  // A limb that is seen now and then spoils the mean; the better one then stands for both.
  const most = Math.max(...each.map(({ samples }) => samples.seenShare));
  const usable = each.filter(({ samples }) => samples.seenShare >= SEEN_THROUGHOUT_SHARE * most);
  const driving = oneOrBothSides(usable.map(({ samples }) => samples));
  const measured = usable.map(({ side }) => side);
  const seen = seenOf(measured[0]!);
  return {
    stroke: {
      side: limbs.side,
      measuredSides: measured,
      driving,
      posture: bodyPosture(seen, exercise, measured[0]!, view),
      companions: bodyCompanions(seen, exercise, measured[0]!, view),
      held: bodyHeld(seen, exercise, measured[0]!, view),
      // Sinking hips tell squats from walking, and a lunge may take a step.
      footing: exercise.companion === 'hips-sink' ? null : bodyFooting(body, measured[0]!),
      sharedUncertaintyDegrees: sharedUncertaintyOf(driving),
      bentByView: !driving.degreesTrustworthy,
    },
    driving,
    seen,
  };
}

function closerLook(
  body: Body,
  firstStroke: Stroke,
  found: SegmentedBout,
  limbs: Limbs,
  rules: SegmentationRules,
): readonly ViewedBout[] {
  const { start, end } = spanOfBout(found);
  const view = estimateView(body, start - 0.3, end + 0.3);
  const hidden =
    limbs.side !== 'both' &&
    view.nearSide !== null &&
    view.nearSide !== limbs.side &&
    view.degreesOffSide < 20;
  if (hidden) return [];
  const part = sliceBody(body, start - MARGIN_SECONDS, end + MARGIN_SECONDS);
  const again = limbs.side === 'both' ? limbChoices(rules.exercise, view)[0]! : limbs;
  const { stroke, driving, seen } = strokeOf(part, rules.exercise, again, view);
  // Reps found in the frames that happen to show the joint are not the reps that were done.
  if (driving.reason === 'joint-not-visible') return [];
  const stretch = { fromSeconds: start - STEADIED_SECONDS, toSeconds: end + STEADIED_SECONDS };
  const [joint, { measuredSides }] = [rules.exercise.drivingAngle, stroke];
  const movingSides = isOneLimbed(rules.exercise) ? measuredSides : BOTH_SIDES;
  const others = otherAngles(
    seen,
    { ...stretch, joint, samples: driving, sides: measuredSides },
    movingSides,
    view,
  );
  const within = [stretch.fromSeconds, stretch.toSeconds] as const;
  const steadied = steadiedByPose(steadiedByAngles(driving, others, ...within), part, ...within);
  const told = trueDegrees({ ...stretch, body: part, joint, view, driving, measuredSides, movingSides });
  const sharedUncertaintyDegrees = sharedUncertaintyOf(told.driving);
  const bouts = segmentStroke({ ...stroke, driving: steadied, sharedUncertaintyDegrees }, rules);
  const reps = bouts.reduce((sum, bout) => sum + bout.reps.length, 0);
  // The closer look sharpens what the first one saw; where it sees less, the first one stands.
  const kept =
    reps >= found.reps.length
      ? bouts.map((bout) => retold(bout, told))
      : segmentStroke(firstStroke, rules).map((bout) => ({ ...bout, ...asTimed({ view, driving }) }));
  return kept
    .map((bout) => ({ ...bout, ...spanOfBout(bout) }))
    .filter((bout) => bout.start < end && bout.end > start);
}

function spanOfBout(bout: SegmentedBout): { readonly start: number; readonly end: number } {
  const phases = bout.reps.flatMap((rep) => rep.phases);
  const moves = phases.filter((phase) => phase.kind === 'eccentric' || phase.kind === 'concentric');
  return {
    start: phases[0]!.start.seconds,
    end: moves[moves.length - 1]!.end.seconds,
  };
}
