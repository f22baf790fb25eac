import type { SetRequest } from '../../analysis/analyzeSet.js';
import { findExercise } from '../../analysis/exercises/catalogue.js';
import type { Exercise } from '../../analysis/exercises/exercise.js';
import { parseLoad } from '../../analysis/plan/load.js';
import { parseSessionPlan, plannedSet, type SessionPlan } from '../../analysis/plan/sessionPlan.js';
import { Failure } from '../../core/failure.js';
import { knownExercises } from '../exercises/knownExercises.js';
import { readTextFile } from '../options/readTextFile.js';
import type { SetOptions } from '../options/setOptions.js';
import { PROGRAM_VERSION } from '../version.js';
import { planOfOptions } from './planOfOptions.js';

/**
 * What the user asks to know about a set, read from the command line and the files it names, before any film is
 * opened.
 *
 * @throws Failure (usage) where the exercise is unknown or not named, or plan or load can't be read.
 */
export async function setRequest(options: SetOptions): Promise<SetRequest> {
  const exercises = await knownExercises(options.exerciseFile);
  const session = await sessionOf(options, exercises);
  const exercise = exerciseOf(options, session, exercises);
  const planned = session === null ? null : plannedSet(session, exercise.id);
  if (session !== null && planned === null) {
    throw new Failure(
      'usage',
      `The plan ${options.plan} has no ${exercise.id}.`,
      `It has ${session.exercises.map((entry) => entry.exerciseId).join(', ')}.`,
    );
  }
  return {
    exercise,
    exerciseChosenBy: 'user',
    plan: planned === null ? planOfOptions(options) : withRest(planned.plan, options),
    side: options.side ?? null,
    mirrored: options.mirrored === true,
    baselineRangeDegrees: null,
    load: options.load === undefined ? (planned?.load ?? null) : parseLoad(options.load),
    programVersion: PROGRAM_VERSION,
    ...(options.tolerance === undefined ? {} : { tolerance: { seconds: options.tolerance, share: 0 } }),
  };
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
  return parseSessionPlan(await readTextFile(options.plan, 'plan'), options.plan, exercises);
}

/** The exercise that is named, or the only one of the plan. */
function exerciseOf(
  options: SetOptions,
  session: SessionPlan | null,
  exercises: readonly Exercise[],
): Exercise {
  const planned = new Set(session?.exercises.map((entry) => entry.exerciseId));
  const id = options.exercise ?? (planned.size === 1 ? [...planned][0] : undefined);
  if (id === undefined) {
    throw new Failure(
      'usage',
      'Which exercise does the film show?',
      'Add --exercise with one of the names that `tempofilm exercises` lists.',
    );
  }
  return findExercise(id, exercises);
}

/** Loads belong to the session plan; the set's plan is what a report shows. */
function withRest(plan: SessionPlan['exercises'][number]['plan'], options: SetOptions): SetRequest['plan'] {
  return {
    stages: plan.stages.map(({ load: _, ...stage }) => stage),
    restSeconds: options.rest ?? plan.restSeconds,
  };
}
