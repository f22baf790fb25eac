import type { SmoothCurve } from '../../core/motion/smoothing.js';
import { knotSeconds, type SpeedSpline, speedAtKnot, valueAt } from '../../core/motion/speedSpline.js';
import type { CandidateRep } from './candidateReps.js';
import type { Extreme } from './extremes.js';

/** How near the level of its other end a rep must have come to be back in the start position, as share of the rep. */
const NEAR_SHARE = 0.15;
/** Stillness this long in the start position ends a rep, whatever follows. */
const REST_SECONDS = 0.4;
/** Rest is slower than this share of the move's mean speed on average over that time. */
const REST_SPEED_SHARE = 0.15;
/** Going on past the level of the rep's other end by this much, after a rest, is another movement … */
const PAST_AFTER_REST = { share: 0.05, degrees: 4 };
/** … and by this much also without one. */
const PAST_WITHOUT_REST = { share: 0.2, degrees: 12 };

/**
 * Cuts off what does not belong to a rep: a return that runs on into putting the weight down or standing up, a
 * first move that comes out of the set-up. Such a move is cut at its rest in the start position or, where it never
 * rests although it goes far past, at its slowest instant there. The level at which the film happens to cut a rep is
 * not its start position and says nothing about the other move.
 */
export function withoutOvershoot(rep: CandidateRep, { spline }: SmoothCurve): CandidateRep {
  const { away, back, cut } = rep;
  if (away === null || back === null) return rep;
  return {
    ...rep,
    away: cut === 'end' ? away : { ...away, from: restOf(away.to, away.from, back.to.value, spline) },
    back: cut === 'start' ? back : { ...back, to: restOf(back.from, back.to, away.from.value, spline) },
  };
}

/** Where a move between its turning point at the far end and one beyond the start position is to be cut. */
function restOf(far: Extreme, outer: Extreme, level: number, spline: SpeedSpline): Extreme {
  const knotOf = (seconds: number) => Math.round((seconds - spline.startSeconds) / spline.stepSeconds);
  const value = (knot: number) => valueAt(spline, knotSeconds(spline, knot));
  const speed = (knot: number) => Math.abs(speedAtKnot(spline, knot));
  const towards = Math.sign(outer.value - far.value);
  const step = Math.sign(outer.seconds - far.seconds);
  const last = knotOf(outer.seconds);
  const size = Math.abs(level - far.value);
  const near = level - towards * NEAR_SHARE * size;
  const cutAt = (knot: number): Extreme => ({
    ...outer,
    seconds: knotSeconds(spline, knot),
    value: value(knot),
    atEdge: false,
  });

  const restKnots = Math.max(2, Math.round(REST_SECONDS / spline.stepSeconds));
  /** Whether the angle stays about where it is for a while from a knot on; never so close to the end of the move. */
  const restsFrom = (knot: number): boolean => {
    if ((last - knot) * step <= restKnots) return false;
    const meanSpeed = Math.abs(value(knot) - far.value) / Math.abs(knotSeconds(spline, knot) - far.seconds);
    const change = Math.abs(value(knot + step * restKnots) - value(knot));
    return change < REST_SPEED_SHARE * meanSpeed * restKnots * spline.stepSeconds;
  };

  const past = towards * (outer.value - level);
  if (past < Math.max(PAST_AFTER_REST.degrees, PAST_AFTER_REST.share * size)) return outer;
  let first = knotOf(far.seconds);
  while (first !== last && towards * (value(first) - near) < 0) first += step;
  for (let knot = first; knot !== last; knot += step) {
    if (!restsFrom(knot)) continue;
    let end = knot;
    while (end !== last && restsFrom(end)) end += step;
    return end === last ? outer : cutAt(end + step * (restKnots - 1));
  }
  if (past < Math.max(PAST_WITHOUT_REST.degrees, PAST_WITHOUT_REST.share * size)) return outer;
  let slowest = first;
  while (slowest !== last && speed(slowest + step) < speed(slowest)) slowest += step;
  return slowest === last ? outer : cutAt(slowest);
}
