import { median } from 'simple-statistics';
import type { Exercise, RangeEnd } from '../exercises/exercise.js';
import type { CandidateRep } from './candidateReps.js';
import {
  type Companion,
  type Footing,
  type Held,
  isHeld,
  medianPose,
  movedAlong,
  type Pose,
  type Posture,
  poseAt,
  poseDistance,
  walks,
} from './posture.js';

/** Candidate reps one after the other that belong together. */
export type Run = readonly CandidateRep[];

export interface RunRules {
  readonly exercise: Exercise;
  readonly start: RangeEnd;
  readonly posture: Posture;
  readonly companions: readonly Companion[];
  readonly held: Held | null;
  /** Null where walking need not be told apart. */
  readonly footing: Footing | null;
  /** A pause in the start position beyond this is a rest. */
  readonly longestHoldSeconds: number;
}

/** Under this share of the baseline a movement is not a rep. */
export const LEAST_REP_SHARE = 0.3;
/** The usual working range may be missed by this much before the movement is another exercise. */
const RANGE_MARGIN_DEGREES = 45;
/** A set's larger reps reach at least this share of the smallest usual excursion. */
const LEAST_SHARE_OF_USUAL = 0.5;

/** The smaller of a rep's two moves, degrees; of one that the film cuts, the move that it shows whole. */
export function excursionOf(rep: CandidateRep): number {
  const sizes = [rep.away, rep.back].flatMap((move) =>
    move === null ? [] : [Math.abs(move.to.value - move.from.value)],
  );
  return rep.cut === null ? Math.min(...sizes) : Math.max(...sizes);
}

/** When a candidate left the start position and was back in it, by the coarse look. */
export type MovingSpan = (rep: CandidateRep) => { readonly fromSeconds: number; readonly toSeconds: number };

/** The turning points around a candidate; between them and its moves the lifter may do other things. */
export function spanOf(rep: CandidateRep): { readonly fromSeconds: number; readonly toSeconds: number } {
  return {
    fromSeconds: (rep.away ?? rep.back)!.from.seconds,
    toSeconds: (rep.back ?? rep.away)!.to.seconds,
  };
}

/**
 * Groups candidates into runs of reps of the exercise and leaves out what is not one: movements that do not
 * come back to the posture they left, that differ from their neighbours' postures, or that are too small.
 *
 * @param movingSpan when each candidate's moves begin and end
 */
export function findRuns(
  candidates: readonly CandidateRep[],
  rules: RunRules,
  movingSpan: MovingSpan,
): readonly Run[] {
  const closed = candidates.filter(
    (rep) => returns(rep, rules.posture, movingSpan) && hasCompany(rep, rules),
  );
  const runs: CandidateRep[][] = [];
  for (const rep of closed) {
    const run = runs[runs.length - 1];
    const previous = run?.[run.length - 1];
    if (run !== undefined && previous !== undefined && follows(previous, rep, rules, movingSpan))
      run.push(rep);
    else runs.push([rep]);
  }
  const pruned = runs
    .map((run) => dropSmall(run))
    .flatMap((run) => withoutIdling(run, movingSpan, rules))
    .map((run) => trimOddEnds(run, rules.posture))
    .filter((run) => run.length > 0 && isTheExercise(run, rules));
  return keepLike(pruned, rules.posture);
}

function returns(rep: CandidateRep, posture: Posture, movingSpan: MovingSpan): boolean {
  if (rep.cut !== null) return true;
  const { fromSeconds, toSeconds } = movingSpan(rep);
  return poseDistance(posture, poseAt(posture, fromSeconds), poseAt(posture, toSeconds)) <= 1;
}

function hasCompany(rep: CandidateRep, rules: RunRules): boolean {
  const { fromSeconds, toSeconds } = spanOf(rep);
  const near = rep.away === null ? toSeconds : fromSeconds;
  const size = excursionOf(rep) / usualExcursion(rules.exercise);
  return rules.companions.every((companion) => movedAlong(companion, near, rep.far.seconds, size));
}

/** The least excursion that the exercise's usual working range allows, degrees. */
export function usualExcursion(exercise: Exercise): number {
  if (exercise.usualExcursionDegrees !== undefined) return exercise.usualExcursionDegrees;
  const { stretched, contracted } = exercise.workingRangeDegrees;
  return Math.min(Math.abs(contracted[0] - stretched[1]), Math.abs(stretched[0] - contracted[1]));
}

function follows(
  earlier: CandidateRep,
  later: CandidateRep,
  rules: RunRules,
  movingSpan: MovingSpan,
): boolean {
  // Something in between was left out: the lifter did something else.
  if (later.order - earlier.order > 2) return false;
  const still = movingSpan(later).fromSeconds - movingSpan(earlier).toSeconds;
  if (still > rules.longestHoldSeconds) return false;
  const far = [poseAt(rules.posture, earlier.far.seconds), poseAt(rules.posture, later.far.seconds)] as const;
  return poseDistance(rules.posture, far[0], far[1]) <= 1.5;
}

function dropSmall(run: Run): Run {
  const reference = referenceExcursion(run);
  return run.filter((rep) => excursionOf(rep) >= LEAST_REP_SHARE * reference);
}

/** Moves under this share of the run's larger reps may be idling rather than partial reps … */
const IDLING_SHARE = 0.4;
/** … where a pause this long, or this many times the run's usual one, sets them apart. */
const APART_SECONDS = 1.5;
const APART_RATIO = 3;

/**
 * Small moves before the first rep, or set apart by pauses on both sides, are the lifter shifting the weight or
 * shaking out an arm; small moves in step with the others are partial reps. What is left of the run may be two.
 */
function withoutIdling(run: Run, movingSpan: MovingSpan, rules: RunRules): readonly Run[] {
  const small = (rep: CandidateRep) => excursionOf(rep) < IDLING_SHARE * referenceExcursion(run);
  const pauses = run.slice(1).map((rep, i) => movingSpan(rep).fromSeconds - movingSpan(run[i]!).toSeconds);
  const firstWhole = run.findIndex((rep) => !small(rep));
  const kept = run.filter((rep, i) => {
    if (!small(rep)) return true;
    const others = pauses.filter((_, k) => k !== i - 1 && k !== i);
    const apart = Math.max(APART_SECONDS, APART_RATIO * (others.length === 0 ? 0 : median(others)));
    const alone = (pauses[i - 1] ?? 0) > apart && (pauses[i] ?? 0) > apart;
    return i > firstWhole && !alone;
  });
  const parts: CandidateRep[][] = [];
  for (const rep of kept) {
    const part = parts[parts.length - 1];
    const previous = part?.[part.length - 1];
    const pause = previous === undefined ? 0 : movingSpan(rep).fromSeconds - movingSpan(previous).toSeconds;
    if (part === undefined || pause > rules.longestHoldSeconds) parts.push([rep]);
    else part.push(rep);
  }
  return parts;
}

/** The excursion of a run's larger reps. */
export function referenceExcursion(run: Run): number {
  return largerHalf(run.map(excursionOf));
}

/** Median of the larger half of some excursions. */
export function largerHalf(excursions: readonly number[]): number {
  const sizes = excursions.toSorted((a, b) => b - a);
  return median(sizes.slice(0, Math.max(1, Math.ceil(sizes.length / 2))));
}

/** Takes off first and last reps whose posture at the far end is unlike the others'. */
function trimOddEnds(run: Run, posture: Posture): Run {
  let kept = [...run];
  while (kept.length >= 3) {
    const poses = kept.map((rep) => poseAt(posture, rep.far.seconds));
    const usual = medianPose(poses);
    const odd = (pose: Pose) => poseDistance(posture, pose, usual) > 1;
    if (odd(poses[0]!)) kept = kept.slice(1);
    else if (odd(poses[poses.length - 1]!)) kept = kept.slice(0, -1);
    else break;
  }
  return kept;
}

function isTheExercise(run: Run, rules: RunRules): boolean {
  const { exercise, start } = rules;
  const whole = run.filter((rep) => rep.cut === null);
  if (whole.length === 0) return false;
  const { stretched, contracted } = exercise.workingRangeDegrees;
  const usual = usualExcursion(exercise);
  const lone = whole.length === 1;
  if (!heldThroughout(whole, rules) || goesSomewhere(whole, rules.footing)) return false;
  if (referenceExcursion(whole) < (lone ? 0.6 : LEAST_SHARE_OF_USUAL) * usual) return false;
  const far = median(whole.map((rep) => rep.far.value));
  const near = median(whole.map((rep) => rep.away!.from.value));
  const farRange = start === 'stretched' ? contracted : stretched;
  const nearRange = start === 'stretched' ? stretched : contracted;
  const margin = lone ? 0.75 * RANGE_MARGIN_DEGREES : RANGE_MARGIN_DEGREES;
  return within(near, nearRange, margin) && withinFar(far, farRange, margin, near);
}

function heldThroughout(whole: Run, { held, start, exercise }: RunRules): boolean {
  if (held === null) return true;
  const straightIsFar = (start === 'stretched') === (exercise.concentric === 'lowers');
  const instants = whole.flatMap((rep) => {
    const [near, far] = [rep.away!.from.seconds, rep.far.seconds];
    if (held.at === 'both-ends') return [near, far];
    return straightIsFar ? [far] : [near];
  });
  return isHeld(held, instants);
}

/** A lone movement is no longer than a step; what happens around it tells whether the lifter is on the way. */
const AROUND_LONE_SECONDS = 1;

function goesSomewhere(whole: Run, footing: Footing | null): boolean {
  if (footing === null) return false;
  const around = whole.length === 1 ? AROUND_LONE_SECONDS : 0;
  const { fromSeconds } = spanOf(whole[0]!);
  const { toSeconds } = spanOf(whole[whole.length - 1]!);
  return walks(footing, fromSeconds - around, toSeconds + around);
}

function within(value: number, range: readonly [number, number], margin: number): boolean {
  return value >= range[0] - margin && value <= range[1] + margin;
}

/** Reps of part of the range stop short of the far end, so only the direction and overshoot are bounded there. */
function withinFar(far: number, range: readonly [number, number], margin: number, near: number): boolean {
  const up = range[0] > near;
  return up ? far <= range[1] + margin && far > near : far >= range[0] - margin && far < near;
}

/** Short runs must look like the longest one to count beside it. */
function keepLike(runs: readonly Run[], posture: Posture): readonly Run[] {
  if (runs.length < 2) return runs;
  const main = runs.reduce((best, run) => (weightOf(run) > weightOf(best) ? run : best));
  const usual = medianPose(main.map((rep) => poseAt(posture, rep.far.seconds)));
  const reference = referenceExcursion(main);
  return runs.filter((run) => {
    if (run === main) return true;
    const size = referenceExcursion(run);
    if (size < 0.45 * reference || size > 1.8 * reference) return false;
    const pose = medianPose(run.map((rep) => poseAt(posture, rep.far.seconds)));
    return poseDistance(posture, pose, usual) <= (run.length === 1 ? 1 : 2);
  });
}

function weightOf(run: Run): number {
  return run.length * referenceExcursion(run);
}
