import { median } from 'simple-statistics';
import { type MannKendall, mannKendall } from '../../../analysis/trends/mannKendall.js';
import { theilSen } from '../../../analysis/trends/theilSen.js';
import type { BoutFigures } from '../sets/figures.js';
import type { FollowedSet } from '../sets/readEntries.js';
import { type LeftOut, likeTheLatest, type TrackedBout } from './likeSets.js';

/** With fewer values even a perfect rise happens by chance more than once in twenty (2 of 4! orders). */
export const FEWEST_SETS = 5;
/** Sets of one evening tell of fatigue, not of weeks. */
export const FEWEST_DAYS = 3;
const SIGNIFICANT = 0.05;
const MILLISECONDS_PER_WEEK = 7 * 86_400_000;

/** A figure followed over the weeks. */
export const MEASURES = ['deliveredLoweringShare', 'medianEccentricSeconds', 'medianRangeDegrees'] as const;
export type Measure = (typeof MEASURES)[number];

const UNCERTAINTY_OF = {
  deliveredLoweringShare: 'deliveredLoweringUncertainty',
  medianEccentricSeconds: 'medianEccentricUncertaintySeconds',
  medianRangeDegrees: 'medianRangeUncertaintyDegrees',
} as const satisfies Record<Measure, keyof BoutFigures>;

export type Trend =
  | { readonly kind: 'too-few'; readonly sets: number; readonly days: number }
  | {
      readonly kind: 'measured';
      readonly sets: number;
      readonly days: number;
      /** Theil–Sen slope in the measure's unit a week, with Sen's 95 % interval. */
      readonly perWeek: number;
      readonly intervalPerWeek: readonly [number, number];
      /** Slope times the time from the first set to the last. */
      readonly change: number;
      /** Half width of the 95 % interval of a difference between two sets, from the measurement alone. */
      readonly measurementUncertainty: number;
      readonly mannKendall: MannKendall;
      /** `within-measurement`: steady in direction, but no larger than the measurement's own uncertainty. */
      readonly verdict: 'rising' | 'falling' | 'within-measurement' | 'none';
    };

/** One exercise by one lifter on one side. */
export interface FollowedSide {
  readonly exercise: FollowedSet['exercise'];
  readonly lifter: string | null;
  readonly side: BoutFigures['side'];
  /** Every bout, in order of recording. */
  readonly bouts: readonly TrackedBout[];
  /** Those like the latest, which the trends are drawn from. */
  readonly like: readonly TrackedBout[];
  readonly leftOut: LeftOut;
  readonly trends: Readonly<Record<Measure, Trend>>;
}

/** What each side of each exercise did over time, the exercise trained last first. */
export function followSides(
  entries: readonly FollowedSet[],
  side: BoutFigures['side'] | null,
): readonly FollowedSide[] {
  const groups = new Map<string, TrackedBout[]>();
  for (const set of entries) {
    for (const bout of firstBoutOfEachSide(set)) {
      if (side !== null && bout.side !== side) continue;
      const key = JSON.stringify([set.exercise.id, set.details.lifter?.toLowerCase() ?? null, bout.side]);
      const group = groups.get(key);
      if (group === undefined) groups.set(key, [{ set, bout }]);
      else group.push({ set, bout });
    }
  }
  return [...groups.values()]
    .map(follow)
    .sort((one, other) => order(other).localeCompare(order(one)) || one.side.localeCompare(other.side));
}

/** Exercises by their latest set whichever side, so that left and right stay together. */
function order({ bouts, exercise, lifter }: FollowedSide): string {
  return `${bouts.at(-1)!.set.recordedAt.instant.slice(0, 10)} ${exercise.id} ${lifter ?? ''}`;
}

/** A later bout of the same side, after a rest inside the film, starts tired and is not compared. */
function firstBoutOfEachSide(set: FollowedSet): readonly BoutFigures[] {
  return set.bouts.filter(
    (bout, index) => set.bouts.findIndex((other) => other.side === bout.side) === index,
  );
}

function follow(bouts: readonly TrackedBout[]): FollowedSide {
  const { set, bout } = bouts.at(-1)!;
  const { bouts: like, leftOut } = likeTheLatest(bouts);
  return {
    exercise: set.exercise,
    lifter: set.details.lifter,
    side: bout.side,
    bouts,
    like,
    leftOut,
    trends: {
      deliveredLoweringShare: trendOf(like, 'deliveredLoweringShare'),
      medianEccentricSeconds: trendOf(like, 'medianEccentricSeconds'),
      medianRangeDegrees: trendOf(like, 'medianRangeDegrees'),
    },
  };
}

function trendOf(bouts: readonly TrackedBout[], measure: Measure): Trend {
  const points = bouts.flatMap(({ set, bout }) => {
    const value = bout[measure];
    const uncertainty = bout[UNCERTAINTY_OF[measure]];
    return value === null ? [] : [{ instant: set.recordedAt.instant, value, uncertainty: uncertainty ?? 0 }];
  });
  return trendOverTime(points);
}

export interface Point {
  /** ISO 8601, UTC. */
  readonly instant: string;
  readonly value: number;
  /** Half width of the 95 % interval of the value. */
  readonly uncertainty: number;
}

/**
 * The trend of a measure in order of time: a line by Theil and Sen, a test by Mann and Kendall, and whether the
 * change is more than two measurements differ by on their own.
 */
export function trendOverTime(points: readonly Point[]): Trend {
  const days = new Set(points.map((point) => point.instant.slice(0, 10))).size;
  const weeks = points.map((point) => Date.parse(point.instant) / MILLISECONDS_PER_WEEK);
  const values = points.map((point) => point.value);
  const line = theilSen(weeks, values);
  if (points.length < FEWEST_SETS || days < FEWEST_DAYS || line === null) {
    return { kind: 'too-few', sets: points.length, days };
  }
  const test = mannKendall(values);
  const change = line.slope * (weeks.at(-1)! - weeks[0]!);
  const measurementUncertainty = Math.SQRT2 * median(points.map((point) => point.uncertainty));
  return {
    kind: 'measured',
    sets: points.length,
    days,
    perWeek: line.slope,
    intervalPerWeek: line.interval,
    change,
    measurementUncertainty,
    mannKendall: test,
    verdict: verdictOf(test.probability, change, measurementUncertainty),
  };
}

function verdictOf(probability: number, change: number, uncertainty: number) {
  if (probability >= SIGNIFICANT || change === 0) return 'none';
  if (Math.abs(change) <= uncertainty) return 'within-measurement';
  return change > 0 ? 'rising' : 'falling';
}
