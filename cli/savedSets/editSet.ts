import { findExercise } from '../../analysis/exercises/catalogue.js';
import type { Exercise } from '../../analysis/exercises/exercise.js';
import { parseLoad } from '../../analysis/plan/load.js';
import type { Plan } from '../../analysis/plan/plan.js';
import { setLoads } from '../../analysis/plan/plannedLoads.js';
import type { SetReport } from '../../analysis/report/setReport.js';
import { Failure } from '../../core/failure.js';
import { knownExercises } from '../exercises/knownExercises.js';
import { type History, withHistory } from '../history/file/history.js';
import { historyFile } from '../history/file/location.js';
import { changeSet } from '../history/sets/changeSet.js';
import { readEarlierRanges } from '../history/sets/earlierRanges.js';
import { findSet, namedSet } from '../history/sets/findSet.js';
import type { HistoryEntry } from '../history/sets/readEntries.js';
import { readReport, readTrack } from '../history/sets/readSets.js';
import { readShown } from '../history/sets/readShown.js';
import type { SetDetails } from '../history/sets/savedSet.js';
import { analyzeAgain } from '../history/sets/scoreAgain.js';
import type { SetOptions } from '../options/setOptions.js';
import { planOfOptions, planOver } from '../pipeline/planOfOptions.js';

export interface EditOptions
  extends Pick<SetOptions, 'exercise' | 'exerciseFile' | 'tempo' | 'reps' | 'stage' | 'rest'> {
  readonly noPlan?: true | undefined;
  readonly load?: readonly string[] | undefined;
  readonly lifter?: string | undefined;
  readonly note?: string | undefined;
  readonly warmUp?: boolean | undefined;
  readonly history?: string | undefined;
}

/** `tempofilm edit`: what the lifter says about a set, or the question put to its film, which is then scored anew. */
export async function editSet(name: string, options: EditOptions): Promise<void> {
  const named = await namedSet(name);
  const exercises = await knownExercises(options.exerciseFile);
  const text = withHistory(historyFile(options.history), 'writing', (history) => {
    const entry = findSet(history, named);
    const details = detailsOf(entry.details, options);
    const report = scoredAnew(history, entry, details, options, exercises);
    changeSet(history, entry.id, { details, report });
    const shown = readShown(history, entry.id).report;
    return asksAnew(options) ? `Set ${entry.id} scored anew: ${shown.headline}` : `Set ${entry.id} changed.`;
  });
  process.stdout.write(`${text}\n`);
}

function detailsOf(before: SetDetails, options: EditOptions): SetDetails {
  const loads = options.load === undefined ? before : setLoads(options.load.map(parseLoad));
  return {
    lifter: changed(options.lifter, before.lifter),
    note: changed(options.note, before.note),
    warmUp: options.warmUp ?? before.warmUp,
    load: loads.load,
    stageLoads: loads.stageLoads === null ? null : [...loads.stageLoads],
  };
}

/** An empty text takes away what was there. */
function changed(now: string | undefined, before: string | null): string | null {
  if (now === undefined) return before;
  return now.trim() === '' ? null : now;
}

function asksAnew(options: EditOptions): boolean {
  const { exercise, tempo, reps, stage, rest, noPlan } = options;
  return [exercise, tempo, reps, stage, rest, noPlan].some((option) => option !== undefined);
}

/** The report with the load said now; worked out from the stored track where exercise or plan changed. */
function scoredAnew(
  history: History,
  entry: HistoryEntry,
  details: SetDetails,
  options: EditOptions,
  exercises: readonly Exercise[],
): SetReport {
  const before = readReport(history, entry.id);
  if (!asksAnew(options)) return { ...before, load: details.load, stageLoads: details.stageLoads };
  const track = readTrack(history, entry.id);
  if (track === null) {
    throw new Failure(
      'usage',
      `Set ${entry.id} was stored without its pose track, so it cannot be scored anew.`,
      'Analyze its film again with the exercise and plan that are right.',
    );
  }
  const exercise =
    options.exercise === undefined || options.exercise === track.request.exercise.id
      ? track.request.exercise
      : findExercise(options.exercise, exercises);
  // An absent `partials` may stand as undefined in a parsed report.
  const plan = options.noPlan === true ? null : planOver(planOfOptions(options), before.plan as Plan | null);
  const earlierRanges = readEarlierRanges(history, {
    exerciseId: exercise.id,
    lifter: details.lifter,
    before: entry.recordedAt.instant,
  });
  const { report } = analyzeAgain(track, {
    ...{ exercise, plan, loads: details, earlierRanges },
    named: options.exercise !== undefined,
  });
  if (!report.quality.usable) {
    throw new Failure('usage', `The film does not show that: ${report.headline}`, 'The set stays as it was.');
  }
  return report;
}
