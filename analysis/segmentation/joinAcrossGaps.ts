import type { MeasuredPhase, MeasuredRep } from './bout.js';
import { TURN_SECONDS } from './measureRep.js';
import type { SegmentedBout } from './segmentStroke.js';

/**
 * Joins bouts that only a stretch of unseen frames in the start position separates: the joint was hidden for a
 * moment, the lifter did not rest. What was not seen counts as the hold it must have been, if it is short enough.
 */
export function joinAcrossGaps<Bout extends SegmentedBout>(
  bouts: readonly Bout[],
  longestHoldSeconds: number,
): readonly Bout[] {
  const joined: Bout[] = [];
  for (const bout of bouts) {
    const previous = joined[joined.length - 1];
    const merged = previous === undefined ? null : join(previous, bout, longestHoldSeconds);
    if (merged === null) joined.push(bout);
    else joined[joined.length - 1] = merged;
  }
  return joined;
}

function join<Bout extends SegmentedBout>(
  earlier: Bout,
  later: Bout,
  longestHoldSeconds: number,
): Bout | null {
  if (earlier.side !== later.side) return null;
  const last = earlier.reps[earlier.reps.length - 1]!;
  const first = later.reps[0]!;
  const hold = last.phases[last.phases.length - 1]!;
  const back = last.phases[last.phases.length - 2];
  const away = first.phases[0]!;
  const sameCurve = earlier.curves.some((curve) => later.curves.includes(curve));
  if (sameCurve || !last.complete || !first.complete || back === undefined) return null;
  const gap = away.start.seconds - back.end.seconds;
  if (gap <= 0 || gap > longestHoldSeconds) return null;
  const bridged: MeasuredRep = { ...last, phases: [...last.phases.slice(0, -1), holdOver(hold, back, away)] };
  return {
    ...earlier,
    reps: [...earlier.reps.slice(0, -1), bridged, ...later.reps],
    curves: [...earlier.curves, ...later.curves],
  };
}

function holdOver(hold: MeasuredPhase, back: MeasuredPhase, away: MeasuredPhase): MeasuredPhase {
  const still = away.start.seconds - back.end.seconds >= TURN_SECONDS;
  return {
    ...hold,
    start: back.end,
    end: still ? away.start : back.end,
    uncertaintySeconds: Math.hypot(back.end.uncertaintySeconds, away.start.uncertaintySeconds),
  };
}
