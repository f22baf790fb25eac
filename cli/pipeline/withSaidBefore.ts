import { existsSync } from 'node:fs';
import type { SetRequest } from '../../analysis/analyzeSet.js';
import { Failure } from '../../core/failure.js';
import type { FilmFacts } from '../../core/media/film.js';
import { historyFile } from '../history/file/location.js';
import { filmKey } from '../history/sets/filmKey.js';
import type { SaidBefore } from '../history/sets/saidBefore.js';
import type { SetDetails } from '../history/sets/savedSet.js';
import type { FilmOptions } from '../options/filmOptions.js';
import type { SetOptions } from '../options/setOptions.js';
import { stageInWords } from '../views/words/planInWords.js';
import type { KeepOptions } from './keepSet.js';
import { planOver } from './planOfOptions.js';
import type { FilmProgress } from './progress.js';

/** What the user tells of a set now, and where it lies that they told before. */
export type SaidOptions = Pick<KeepOptions, 'history' | 'lifterName' | 'note' | 'warmUp'> &
  Pick<FilmOptions, 'from' | 'to'> &
  Pick<SetOptions, 'withoutPlan' | 'mirrored'>;

/** A question with all that is known of its set. */
export interface SaidOfSet {
  readonly request: SetRequest;
  readonly details: SetDetails;
  /** Whether an earlier set of the same film and exercise told any of it. */
  readonly before: boolean;
}

/**
 * The question as it is asked now, and what it leaves open as it was told when the same film was saved before: a set
 * that takes the place of another loses nothing the user said of it. One line tells what of it bears on the answer.
 */
export async function withSaidBefore(
  film: FilmFacts,
  request: SetRequest,
  options: SaidOptions,
  progress: FilmProgress,
): Promise<SaidOfSet> {
  const now = detailsNow(request, options);
  const before = await saidBefore(film, request, options, progress);
  if (before === null) return { request, details: now, before: false };
  const { mergeDetails } = await import('../history/sets/saveSet.js');
  const details = mergeDetails(now, before.details);
  const tolerance = request.tolerance ?? before.tolerance;
  const asked: SetRequest = {
    ...request,
    exerciseChosenBy: before.exerciseChosenBy === 'user' ? 'user' : request.exerciseChosenBy,
    plan: options.withoutPlan === true ? null : planOver(request.plan, before.plan),
    side: request.side ?? before.side ?? null,
    mirrored: options.mirrored ?? before.mirrored ?? request.mirrored,
    load: details.load,
    stageLoads: details.stageLoads,
    ...(tolerance === undefined ? {} : { tolerance }),
  };
  const told = keptInWords(request, asked);
  if (told.length > 0) progress.note(`As told of set ${before.id} before: ${told.join('; ')}.`);
  return { request: asked, details, before: true };
}

function detailsNow({ load, stageLoads }: SetRequest, { lifterName, note, warmUp }: SaidOptions): SetDetails {
  return {
    lifter: lifterName ?? null,
    load: load ?? null,
    stageLoads: stageLoads == null ? null : [...stageLoads],
    warmUp: warmUp === true,
    note: note ?? null,
  };
}

async function saidBefore(
  film: FilmFacts,
  { exercise }: SetRequest,
  { history: named, from, to }: SaidOptions,
  progress: FilmProgress,
): Promise<SaidBefore | null> {
  const file = historyFile(named);
  if (!existsSync(file)) return null;
  const { withHistory } = await import('../history/file/history.js');
  const { readSaidBefore } = await import('../history/sets/saidBefore.js');
  const key = await filmKey(film.file);
  try {
    return withHistory(file, 'reading', (history) =>
      readSaidBefore(history, {
        filmKey: key,
        fromSeconds: from ?? null,
        toSeconds: to ?? null,
        report: { exercise },
      }),
    );
  } catch (thrown) {
    // The film still answers for itself; saving tells what is wrong with the history.
    if (!(thrown instanceof Failure) || thrown.kind !== 'history') throw thrown;
    progress.note(`What was told of this film before was not looked up: ${thrown.message}`);
    return null;
  }
}

/** What was left open and is answered as before, each with the option that says otherwise. */
function keptInWords(now: SetRequest, asked: SetRequest): readonly string[] {
  const { plan, side, mirrored, tolerance, exercise } = asked;
  const kept: string[] = [];
  if (plan !== null && plan.stages.length > 0 && plan.stages !== now.plan?.stages) {
    const stages = plan.stages.map((stage) => stageInWords(stage, exercise.words)).join(', then ');
    kept.push(`the plan, ${stages} (another: --tempo, --reps, --stage or --plan; none: --without-plan)`);
  }
  if (side !== now.side) kept.push(`the side, ${side} (another: --side)`);
  if (mirrored !== now.mirrored) kept.push('a mirror image (else: --no-mirrored)');
  if (tolerance !== undefined && now.tolerance === undefined)
    kept.push(`the tolerance, ${tolerance.seconds} s (another: --tolerance)`);
  return kept;
}
