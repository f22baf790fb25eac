import type { HistoryEntry } from '../../history/sets/readEntries.js';
import type { SideGap } from '../../history/weeks/sideGap.js';
import type { FollowedSide } from '../../history/weeks/trends.js';

const HISTORY_SCHEMA_ID = 'tempofilm.history/1';

/** The history as data: the sets with the figures that are followed, the trends, the gaps between sides. */
export function historyJson(
  entries: readonly HistoryEntry[],
  sides: readonly FollowedSide[],
  gaps: readonly SideGap[],
): object {
  return {
    schema: HISTORY_SCHEMA_ID,
    sets: entries.map((entry) => ({
      set: entry.id,
      uid: entry.uid,
      film: { file: entry.filmFile, fromSeconds: entry.fromSeconds, toSeconds: entry.toSeconds },
      recordedAt: entry.recordedAt.instant,
      recordedAtSource: entry.recordedAt.source,
      exercise: entry.exercise,
      lifter: entry.details.lifter,
      load: entry.details.load,
      stageLoads: entry.details.stageLoads,
      warmUp: entry.details.warmUp,
      note: entry.details.note,
      invented: entry.invented,
      amendments: entry.amendments,
      plan: entry.plan,
      headline: entry.headline,
      bouts: entry.bouts,
    })),
    trends: sides.map((side) => ({
      exercise: side.exercise,
      lifter: side.lifter,
      side: side.side,
      likeSets: side.like.map(({ set }) => set.id),
      leftOut: side.leftOut,
      measures: side.trends,
    })),
    gaps: gaps.map(({ exercise, lifter, measure, points, trend, verdict }) => ({
      exercise,
      lifter,
      measure,
      leftMinusRight: points,
      trend,
      verdict,
    })),
  };
}
