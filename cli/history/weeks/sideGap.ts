import type { TrackedBout } from './likeSets.js';
import { likeView } from './likeSets.js';
import { type FollowedSide, type Point, type Trend, trendOverTime } from './trends.js';

/** How the difference between left and right of one exercise moves. */
export interface SideGap {
  readonly exercise: FollowedSide['exercise'];
  readonly lifter: string | null;
  readonly measure: 'medianEccentricSeconds' | 'medianRangeDegrees';
  /** Left minus right, one value a day on which both were filmed alike. */
  readonly points: readonly Point[];
  readonly trend: Trend;
  /** `closing` and `widening` only where the trend is real. */
  readonly verdict: 'closing' | 'widening' | 'none';
}

/** The gaps of every exercise that was filmed left and right. */
export function sideGaps(sides: readonly FollowedSide[]): readonly SideGap[] {
  return sides
    .filter((one) => one.side === 'left')
    .flatMap((left) => {
      const right = sides.find(
        (other) =>
          other.side === 'right' && other.exercise.id === left.exercise.id && other.lifter === left.lifter,
      );
      if (right === undefined) return [];
      return [gap(left, right, 'medianEccentricSeconds'), gap(left, right, 'medianRangeDegrees')];
    });
}

function gap(left: FollowedSide, right: FollowedSide, measure: SideGap['measure']): SideGap {
  const points = left.like.flatMap((bout) => pointOf(bout, right.like, measure));
  const trend = trendOverTime(points);
  return {
    exercise: left.exercise,
    lifter: left.lifter,
    measure,
    points,
    trend,
    verdict: verdictOf(points, trend),
  };
}

/** Left minus right, where the other side was filmed on the same day. */
function pointOf(
  left: TrackedBout,
  rights: readonly TrackedBout[],
  measure: SideGap['measure'],
): readonly Point[] {
  const day = left.set.recordedAt.instant.slice(0, 10);
  const right = rights.find(({ set }) => set.recordedAt.instant.slice(0, 10) === day);
  if (right === undefined) return [];
  // Degrees are compared between mirrored views only: left from the left, right from the right.
  if (measure === 'medianRangeDegrees' && !likeView(left.bout, mirrored(right.bout))) return [];
  const values = [left.bout[measure], right.bout[measure]];
  const uncertainties =
    measure === 'medianRangeDegrees'
      ? [left.bout.medianRangeUncertaintyDegrees, right.bout.medianRangeUncertaintyDegrees]
      : [left.bout.medianEccentricUncertaintySeconds, right.bout.medianEccentricUncertaintySeconds];
  if (values[0] === null || values[1] === null) return [];
  return [
    {
      instant: left.set.recordedAt.instant,
      value: values[0]! - values[1]!,
      uncertainty: Math.hypot(uncertainties[0] ?? 0, uncertainties[1] ?? 0),
    },
  ];
}

function mirrored<Figures extends TrackedBout['bout']>(bout: Figures): Figures {
  const facing = { left: 'right', right: 'left', front: 'front', back: 'back' } as const;
  return { ...bout, facing: facing[bout.facing] };
}

function verdictOf(points: readonly Point[], trend: Trend): SideGap['verdict'] {
  if (trend.kind !== 'measured' || trend.verdict === 'none' || trend.verdict === 'within-measurement')
    return 'none';
  const middle = points.reduce((sum, point) => sum + point.value, 0) / points.length;
  return Math.sign(trend.change) === Math.sign(middle) ? 'widening' : 'closing';
}
