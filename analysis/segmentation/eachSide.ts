import type { Body } from '../../core/motion/body.js';
import { HALF_WIDTH_ERRORS } from '../../core/motion/interval.js';
import { type JointSamples, jointSamples } from '../../core/motion/jointSamples.js';
import { median, robustStandardDeviation } from '../../core/motion/robust.js';
import { between, type SmoothCurve, typicalInterval } from '../../core/motion/smoothing.js';
import type { View } from '../../core/motion/view.js';
import type { Side } from '../../core/pose/keypoints.js';
import type { Exercise } from '../exercises/exercise.js';
import type { MeasuredBout, MeasuredPhase } from './bout.js';
import { curvesOver, levelsOfMove, movesOf, rangeOverRep } from './jointLevels.js';

/** What each limb of two-limbed work did, where the camera sees both. */
export interface EachSide {
  /** Which limb passes the middle of its lifts first, and by how long; null within one frame or its own error. */
  readonly leadingSide: {
    readonly side: Side;
    readonly seconds: number;
    readonly uncertaintySeconds: number;
  } | null;
  /** Median range over the complete reps, with the half width of its 95 % interval; null where the view gives none. */
  readonly sides: readonly {
    readonly side: Side;
    readonly rangeDegrees: number | null;
    readonly uncertaintyDegrees: number | null;
  }[];
}

/** Fewer lifts than this say nothing about which limb leads. */
const FEWEST_LIFTS = 3;
/** The part of a lift, as shares of its excursion, in which the line through the samples is drawn. */
const MIDDLE_PART = [0.2, 0.8] as const;
/** Standard error of a median over that of a mean, for normal values. */
const MEDIAN_ERROR = Math.sqrt(Math.PI / 2);

interface Limb {
  readonly samples: JointSamples;
  readonly curves: readonly SmoothCurve[];
}

/** Range of each limb and which one leads; null where one limb stands for both. */
export function eachSide(
  bout: MeasuredBout & { readonly view: View },
  body: Body,
  exercise: Exercise,
): EachSide | null {
  if (bout.side !== 'both' || bout.measuredSides.length < 2) return null;
  const limb = (side: Side): Limb => {
    const samples = jointSamples(body, exercise.drivingAngle, side, bout.view);
    return { samples, curves: curvesOver(samples, bout) };
  };
  const [left, right] = [limb('left'), limb('right')];
  return {
    leadingSide: leading(bout, left, right),
    sides: [
      { side: 'left', ...medianRange(bout, left) },
      { side: 'right', ...medianRange(bout, right) },
    ],
  };
}

function medianRange(
  bout: MeasuredBout,
  { samples, curves }: Limb,
): { readonly rangeDegrees: number | null; readonly uncertaintyDegrees: number | null } {
  const ranges = bout.reps
    .filter((rep) => rep.complete)
    .map((rep) => rangeOverRep(curves, rep))
    .filter((range) => range !== null);
  const degrees = median(ranges.map((range) => range.degrees));
  if (degrees === null || !samples.degreesTrustworthy)
    return { rangeDegrees: null, uncertaintyDegrees: null };
  const noise =
    (HALF_WIDTH_ERRORS * median(ranges.map((range) => range.standardError))!) / Math.sqrt(ranges.length);
  return {
    rangeDegrees: degrees,
    uncertaintyDegrees: Math.hypot(noise, samples.sharedUncertaintyDegrees),
  };
}

function leading(bout: MeasuredBout, left: Limb, right: Limb): EachSide['leadingSide'] {
  const lifts = bout.reps
    .filter((rep) => rep.complete)
    .flatMap((rep) => movesOf(rep).filter(({ kind }) => kind === 'concentric'));
  const passings = lifts.flatMap((lift) => {
    const [first, second] = [passing(left, lift), passing(right, lift)];
    return first === null || second === null
      ? []
      : [{ lead: second.seconds - first.seconds, secondsPerDegree: first.secondsPerDegree }];
  });
  const leads = passings.map(({ lead }) => lead);
  if (leads.length < FEWEST_LIFTS) return null;
  const lead = median(leads)!;
  const error = (MEDIAN_ERROR * robustStandardDeviation(leads)!) / Math.sqrt(leads.length);
  const frame = typicalInterval(left.samples);
  // The middle of a curve is as wrong as half of its range, and an angle that reads late is a time that reads late.
  const shared =
    Math.hypot(left.samples.sharedUncertaintyDegrees, right.samples.sharedUncertaintyDegrees) / 2;
  const fromAngles = shared * median(passings.map(({ secondsPerDegree }) => secondsPerDegree))!;
  const uncertaintySeconds = Math.hypot(HALF_WIDTH_ERRORS * error, frame / 2, fromAngles);
  if (Math.abs(lead) <= frame || Math.abs(lead) <= uncertaintySeconds) return null;
  return { side: lead > 0 ? 'left' : 'right', seconds: Math.abs(lead), uncertaintySeconds };
}

/** When a limb passed the middle between its own two levels: a line through the middle part of the move; null unseen. */
function passing(
  { samples, curves }: Limb,
  lift: MeasuredPhase,
): { readonly seconds: number; readonly secondsPerDegree: number } | null {
  const levels = levelsOfMove(curves, lift);
  if (levels === null || !Number.isFinite(levels.to - levels.from)) return null;
  const part = between(samples, lift.start.seconds - 0.1, lift.end.seconds + 0.1);
  const points: { share: number; seconds: number }[] = [];
  part.values.forEach((value, at) => {
    const share = (value - levels.from) / (levels.to - levels.from);
    if (share >= MIDDLE_PART[0] && share <= MIDDLE_PART[1])
      points.push({ share, seconds: part.seconds[at]! });
  });
  if (points.length < 3) return null;
  // Least squares of time on share, read off at one half.
  const mean = (of: (point: (typeof points)[number]) => number) =>
    points.reduce((sum, point) => sum + of(point), 0) / points.length;
  const share = mean((point) => point.share);
  const seconds = mean((point) => point.seconds);
  const spread = mean((point) => (point.share - share) ** 2);
  const slope = mean((point) => (point.share - share) * (point.seconds - seconds)) / Math.max(1e-6, spread);
  return {
    seconds: seconds + slope * (0.5 - share),
    secondsPerDegree: Math.abs(slope / (levels.to - levels.from)),
  };
}
