import type { SetRequest } from '../../analysis/analyzeSet.js';
import { findExercise } from '../../analysis/exercises/catalogue.js';
import type { Exercise } from '../../analysis/exercises/exercise.js';
import { parseLoad } from '../../analysis/plan/load.js';
import { plannedLoads, type SetLoads, setLoads } from '../../analysis/plan/plannedLoads.js';
import { plannedSet } from '../../analysis/plan/plannedSet.js';
import type { PlannedExercise, SessionPlan } from '../../analysis/plan/sessionPlan.js';
import type { UnnamedRequest } from '../../analysis/recognition/analyzeUnnamed.js';
import { Failure } from '../../core/failure.js';
import { knownExercises } from '../exercises/knownExercises.js';
import { readTextFile } from '../options/readTextFile.js';
import type { SetOptions } from '../options/setOptions.js';
import { PROGRAM_VERSION } from '../version.js';
import { planOfOptions } from './planOfOptions.js';

/** What is asked of each of several films, and whose sets they are. */
export interface SetRequests {
  readonly requests: readonly (SetRequest | UnnamedRequest)[];
  /** The name in the plan; null where the plan has none, or there is no plan file. */
  readonly lifter: string | null;
}

/**
 * What the user asks to know about a set, read from the command line and the files it names, before any film is
 * opened.
 *
 * @returns a question without an exercise where neither the command line nor a plan names one.
 * @throws Failure (usage) where the exercise is unknown, a plan leaves open which, or plan or load can't be read.
 */
export async function setRequest(options: SetOptions): Promise<SetRequest | UnnamedRequest> {
  return (await setRequests(options, 1)).requests[0]!;
}

/**
 * The same for several films, which take the plan's sets of their exercise in order: set 1, set 2, set 3; further
 * ones are held against the last.
 *
 * @throws Failure as `setRequest` does.
 */
export async function setRequests(options: SetOptions, films: number): Promise<SetRequests> {
  refusePlanBesideNone(options);
  const exercises = await knownExercises(options.exerciseFile);
  const session = await sessionOf(options, exercises);
  const exercise = exerciseOf(options, session, exercises);
  const requests = Array.from({ length: films }, (_, index): SetRequest | UnnamedRequest => {
    const planned =
      session === null || exercise === null ? null : plannedSet(session, exercise.id, index + 1);
    if (session !== null && exercise !== null && planned === null) {
      throw new Failure(
        'usage',
        `The plan ${options.plan} has no ${exercise.id}.`,
        `It has ${session.exercises.map((entry) => entry.exerciseId).join(', ')}.`,
      );
    }
    const question = {
      plan: planned === null ? planOfOptions(options) : withRest(planned.plan, options),
      side: options.side ?? null,
      mirrored: options.mirrored === true,
      ...loadsOf(options, planned),
      programVersion: PROGRAM_VERSION,
      ...(options.tolerance === undefined ? {} : { tolerance: { seconds: options.tolerance, share: 0 } }),
    };
    return exercise === null
      ? { exercise, ...question }
      : { exercise, exerciseChosenBy: 'user', ...question };
  });
  return { requests, lifter: session?.lifter ?? null };
}

function refusePlanBesideNone({ withoutPlan, plan, tempo, reps, stage, rest }: SetOptions): void {
  if (withoutPlan !== true || [plan, tempo, reps, stage, rest].every((part) => part === undefined)) return;
  throw new Failure(
    'usage',
    '--without-plan says that there was no plan, and one is stated beside it.',
    'Leave out --without-plan, or leave out --plan, --tempo, --reps, --stage and --rest.',
  );
}

/** What is said on the command line goes before the plan. */
function loadsOf({ load }: SetOptions, planned: PlannedExercise | null): SetLoads {
  if (load !== undefined) return setLoads(load.map(parseLoad));
  return planned === null ? setLoads([]) : plannedLoads(planned);
}

async function sessionOf(options: SetOptions, exercises: readonly Exercise[]): Promise<SessionPlan | null> {
  if (options.plan === undefined) return null;
  if (options.tempo !== undefined || options.reps !== undefined || options.stage !== undefined) {
    throw new Failure(
      'usage',
      'The plan is stated twice: in a file and on the command line.',
      'Leave out --plan, or leave out --tempo, --reps and --stage.',
    );
  }
  const { parseSessionPlan } = await import('../../analysis/plan/sessionPlan.js');
  return parseSessionPlan(await readTextFile(options.plan, 'plan'), options.plan, exercises);
}

/** The exercise that is named, or the only one of the plan; null where there is neither name nor plan. */
function exerciseOf(
  options: SetOptions,
  session: SessionPlan | null,
  exercises: readonly Exercise[],
): Exercise | null {
  const planned = new Set(session?.exercises.map((entry) => entry.exerciseId));
  const id = options.exercise ?? (planned.size === 1 ? [...planned][0] : undefined);
  if (id === undefined && session === null) return null;
  if (id === undefined) {
    throw new Failure(
      'usage',
      'Which exercise of the plan does the film show?',
      `Add --exercise: the plan has ${[...planned].join(', ')}.`,
    );
  }
  return findExercise(id, exercises);
}

/** The plan of a report says nothing of loads: they stand beside it. */
function withRest(plan: SessionPlan['exercises'][number]['plan'], options: SetOptions): SetRequest['plan'] {
  return {
    stages: plan.stages.map(({ load: _, ...stage }) => stage),
    restSeconds: options.rest ?? plan.restSeconds,
  };
}
