import type { Samples } from '../../core/motion/samples.js';
import { between, type SmoothCurve, smoothSamples } from '../../core/motion/smoothing.js';
import { knotSeconds, valueAt } from '../../core/motion/speedSpline.js';
import type { MeasuredBout, MeasuredPhase, MeasuredRep } from './bout.js';

/** How far around the ends of a move another joint may come to its own turn, seconds. */
const TURN_WITHIN_SECONDS = 0.25;

/** Levels of a joint angle at the two ends of a move, degrees. */
export interface MoveLevels {
  readonly from: number;
  readonly to: number;
  /** Standard error of the difference of the two, from the noise of the samples. */
  readonly standardError: number;
}

/** A joint's curves over a bout: any joint may be looked at, not only the one that times the exercise. */
export function curvesOver(samples: Samples, bout: MeasuredBout): readonly SmoothCurve[] {
  const phases = bout.reps.flatMap((rep) => rep.phases);
  const first = phases[0]?.start.seconds ?? 0;
  const last = phases.at(-1)?.end.seconds ?? 0;
  return smoothSamples(between(samples, first - 1, last + 1));
}

/** Where a joint stood at both ends of a move: its turning points around them; null where it was not seen all through. */
export function levelsOfMove(curves: readonly SmoothCurve[], move: MeasuredPhase): MoveLevels | null {
  const [start, end] = [move.start.seconds, move.end.seconds];
  const curve = curves.find(
    ({ samples }) => samples.seconds[0]! <= start && samples.seconds[samples.seconds.length - 1]! >= end,
  );
  if (curve === undefined) return null;
  const rising = valueAt(curve.spline, end) > valueAt(curve.spline, start) ? 1 : -1;
  const inside = Math.min(TURN_WITHIN_SECONDS, (end - start) / 3);
  const before = extreme(curve, start - TURN_WITHIN_SECONDS, start + inside, -rising);
  const after = extreme(curve, end - inside, end + TURN_WITHIN_SECONDS, rising);
  return {
    from: before.value,
    to: after.value,
    standardError: Math.hypot(before.standardError, after.standardError),
  };
}

/** The highest (`sign` 1) or lowest (-1) value of a curve between two times. */
function extreme({ spline, standardErrors }: SmoothCurve, from: number, to: number, sign: number) {
  let [value, standardError] = [Number.NEGATIVE_INFINITY, 0];
  for (let knot = 0; knot <= spline.cells; knot++) {
    const seconds = knotSeconds(spline, knot);
    if (seconds < from || seconds > to) continue;
    const here = sign * valueAt(spline, seconds);
    if (here > value) [value, standardError] = [here, standardErrors.values[knot]!];
  }
  return { value: sign * value, standardError };
}

/** The moving phases of a rep. */
export function movesOf(rep: MeasuredRep): readonly MeasuredPhase[] {
  return rep.phases.filter(({ kind }) => kind === 'eccentric' || kind === 'concentric');
}

/** Range of any joint over a rep: the smaller of its excursions over the rep's two moves; null where not seen. */
export function rangeOverRep(
  curves: readonly SmoothCurve[],
  rep: MeasuredRep,
): { readonly degrees: number; readonly standardError: number } | null {
  const levels = movesOf(rep).map((move) => levelsOfMove(curves, move));
  const known = levels.filter((one) => one !== null && Number.isFinite(one.to - one.from));
  if (known.length < 2) return null;
  const excursions = known.map((one) => ({
    degrees: Math.abs(one!.to - one!.from),
    standardError: one!.standardError,
  }));
  return excursions.reduce((least, one) => (one.degrees < least.degrees ? one : least));
}
