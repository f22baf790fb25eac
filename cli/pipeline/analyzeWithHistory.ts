import { analyzeSet, type SetAnalysis, type SetRequest } from '../../analysis/analyzeSet.js';
import type { SetReport } from '../../analysis/report/setReport.js';
import type { EarlierRange } from '../../analysis/scoring/earlierRange.js';
import { Failure } from '../../core/failure.js';
import type { FilmFacts } from '../../core/media/film.js';
import type { PoseTrack } from '../../core/pose/track.js';
import { historyFile } from '../history/file/location.js';
import type { KeepOptions } from './keepSet.js';
import type { FilmProgress } from './progress.js';
import { recordedAtOf } from './recordedAtOf.js';

/** Where the lifter's earlier sets lie, and whose they are. */
export type EarlierOptions = Pick<KeepOptions, 'history' | 'lifterName'>;

/**
 * The report of a set. Where a bout has too few reps for a baseline of its own, the lifter's earlier sets give it;
 * the history is not opened otherwise.
 */
export async function analyzeWithHistory(
  track: PoseTrack,
  film: FilmFacts,
  request: SetRequest,
  options: EarlierOptions,
  progress: FilmProgress,
): Promise<SetAnalysis> {
  const alone = analyzeSet(track, film, request);
  if (!lacksBaseline(alone.report)) return alone;
  const earlierRanges = await earlierRangesOf(film, request, options, progress);
  return earlierRanges.length === 0 ? alone : analyzeSet(track, film, { ...request, earlierRanges });
}

/** Whether earlier sets could tell more: a bout has degrees, and nothing to hold them against. */
function lacksBaseline({ bouts }: SetReport): boolean {
  return bouts.some(
    ({ summary, reps }) => summary.baselineRangeDegrees === null && reps.some((rep) => rep.range !== null),
  );
}

async function earlierRangesOf(
  film: FilmFacts,
  request: SetRequest,
  options: EarlierOptions,
  progress: FilmProgress,
): Promise<readonly EarlierRange[]> {
  const { instant } = await recordedAtOf(film);
  const { withHistory } = await import('../history/file/history.js');
  const { readEarlierRanges } = await import('../history/sets/earlierRanges.js');
  try {
    return withHistory(historyFile(options.history), 'reading', (history) =>
      readEarlierRanges(history, {
        exerciseId: request.exercise.id,
        lifter: options.lifterName ?? null,
        before: instant,
      }),
    );
  } catch (thrown) {
    // The film still answers for itself; saving tells what is wrong with the history.
    if (!(thrown instanceof Failure) || thrown.kind !== 'history') throw thrown;
    progress.note(`Earlier sets were not looked at: ${thrown.message}`);
    return [];
  }
}
