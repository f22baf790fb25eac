import type { MeasuredRep } from './bout.js';
import { largerHalf } from './runs.js';
import type { SegmentedBout } from './segmentStroke.js';
import type { TrueDegrees } from './trueDegrees.js';

type SeenBout = SegmentedBout & Pick<TrueDegrees, 'driving'>;

/**
 * One movement seen twice (the far arm imitating the near one, neighbouring spans, both knees of a split squat) is kept
 * once: the bout that `comesFirst`, else the one whose joint was seen throughout, else the one with the larger excursions.
 * Alternating work overlaps in time too, but its reps do not.
 */
export function onePerMovement<Bout extends SeenBout>(
  bouts: readonly Bout[],
  comesFirst: (bout: Bout) => boolean,
): readonly Bout[] {
  const ranked = bouts.toSorted(
    (a, b) =>
      Number(comesFirst(b)) - Number(comesFirst(a)) ||
      Number(isSeenThroughout(b)) - Number(isSeenThroughout(a)) ||
      strength(b) - strength(a),
  );
  const kept: Bout[] = [];
  for (const bout of ranked) {
    if (!kept.some((other) => isSameMovement(bout, other))) kept.push(bout);
  }
  return kept;
}

/** A limb behind the body is seen now and then, and then mistaken for the other one. */
export const SEEN_THROUGHOUT_SHARE = 0.8;

const isSeenThroughout = ({ driving }: SeenBout) => driving.seenShare >= SEEN_THROUGHOUT_SHARE;

function strength(bout: SeenBout): number {
  return bout.reps.reduce((sum, rep) => sum + excursionDegrees(rep), 0);
}

/** The excursion of a bout's larger reps, degrees. */
export function usualSize(bout: SeenBout): number {
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
function isSameMovement(a: SeenBout, b: SeenBout): boolean {
  const moving = (bout: SeenBout) =>
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
