import { steadiedByAngles } from '../../core/motion/anglesInStep.js';
import type { Body } from '../../core/motion/body.js';
import { byEitherLabel } from '../../core/motion/eitherLabel.js';
import { type JointSamples, jointSamples, meanOfSides } from '../../core/motion/jointSamples.js';
import { steadiedByPose } from '../../core/motion/poseRegression.js';
import { sliceBody } from '../../core/motion/sliceBody.js';
import { estimateView, SIDE_VIEW_DEGREES, type View } from '../../core/motion/view.js';
import { viewSpans } from '../../core/motion/viewSpans.js';
import type { Side } from '../../core/pose/keypoints.js';
import type { Exercise } from '../exercises/exercise.js';
import { bodyCompanions, bodyFooting, bodyHeld, bodyPosture } from './bodyPosture.js';
import type { MeasuredRep } from './bout.js';
import { clearerLimb } from './clearerLimb.js';
import { frontLeg } from './frontLeg.js';
import { joinAcrossGaps } from './joinAcrossGaps.js';
import { BOTH_SIDES, otherAngles } from './otherAngles.js';
import { largerHalf, usualExcursion } from './runs.js';
import {
  longestHold,
  type SegmentationRules,
  type SegmentedBout,
  type Stroke,
  segmentStroke,
} from './segmentStroke.js';

/** A bout with the view it was measured from and the samples it rests on. */
export interface ViewedBout extends SegmentedBout {
  readonly view: View;
  readonly driving: JointSamples;
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
  const [first, second] = usable;
  const driving = second === undefined ? first!.samples : meanOfSides(first!.samples, second.samples);
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
      sharedUncertaintyDegrees: driving.degreesTrustworthy ? driving.sharedUncertaintyDegrees : null,
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
  const stretch = [start - STEADIED_SECONDS, end + STEADIED_SECONDS] as const;
  const others = otherAngles(
    seen,
    {
      joint: rules.exercise.drivingAngle,
      samples: driving,
      sides: stroke.measuredSides,
      fromSeconds: stretch[0],
      toSeconds: stretch[1],
    },
    isOneLimbed(rules.exercise) ? stroke.measuredSides : BOTH_SIDES,
    view,
  );
  const steadied = steadiedByPose(steadiedByAngles(driving, others, ...stretch), part, ...stretch);
  const bouts = segmentStroke({ ...stroke, driving: steadied }, rules);
  const reps = bouts.reduce((sum, bout) => sum + bout.reps.length, 0);
  // The closer look sharpens what the first one saw; where it sees less, the first one stands.
  const kept = reps >= found.reps.length ? bouts : segmentStroke(firstStroke, rules);
  return kept
    .map((bout) => ({ ...bout, ...spanOfBout(bout), view, driving }))
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

/**
 * One movement seen twice (the far arm imitating the near one, neighbouring spans, both knees of a split squat) is kept
 * once: the bout that `comesFirst`, else the one whose joint was seen throughout, else the one with the larger excursions.
 * Alternating work overlaps in time too, but its reps do not.
 */
function onePerMovement(
  bouts: readonly ViewedBout[],
  comesFirst: (bout: ViewedBout) => boolean,
): readonly ViewedBout[] {
  const ranked = bouts.toSorted(
    (a, b) =>
      Number(comesFirst(b)) - Number(comesFirst(a)) ||
      Number(isSeenThroughout(b)) - Number(isSeenThroughout(a)) ||
      strength(b) - strength(a),
  );
  const kept: ViewedBout[] = [];
  for (const bout of ranked) {
    if (!kept.some((other) => isSameMovement(bout, other))) kept.push(bout);
  }
  return kept;
}

/** A limb behind the body is seen now and then, and then mistaken for the other one. */
const SEEN_THROUGHOUT_SHARE = 0.8;

const isSeenThroughout = ({ driving }: ViewedBout) => driving.seenShare >= SEEN_THROUGHOUT_SHARE;

function strength(bout: ViewedBout): number {
  return bout.reps.reduce((sum, rep) => sum + excursionDegrees(rep), 0);
}

/** The excursion of a bout's larger reps, degrees. */
function usualSize(bout: ViewedBout): number {
  return largerHalf(bout.reps.map(excursionDegrees));
}

function excursionDegrees(rep: MeasuredRep): number {
  const moves = rep.phases.filter((phase) => phase.middleSeconds !== null);
  return Math.max(0, ...moves.map((phase) => Math.abs(phase.toDegrees - phase.fromDegrees)));
}

/**
 * Two bouts are one movement when most moving time of the shorter one is the other's too, in the same direction; in
 * either direction where a limb was not seen throughout, which tells little of where it went.
 */
function isSameMovement(a: ViewedBout, b: ViewedBout): boolean {
  const moving = (bout: ViewedBout) =>
    bout.reps.flatMap((rep) => rep.phases.filter((phase) => phase.middleSeconds !== null));
  const [first, second] = [moving(a), moving(b)];
  const eitherWay = !isSeenThroughout(a) || !isSeenThroughout(b);
  let shared = 0;
  for (const one of first) {
    for (const other of second) {
      if (other.kind !== one.kind && !eitherWay) continue;
      shared += Math.max(
        0,
        Math.min(one.end.seconds, other.end.seconds) - Math.max(one.start.seconds, other.start.seconds),
      );
    }
  }
  const total = (phases: typeof first) =>
    phases.reduce((sum, phase) => sum + phase.end.seconds - phase.start.seconds, 0);
  return shared > 0.6 * Math.min(total(first), total(second));
}
