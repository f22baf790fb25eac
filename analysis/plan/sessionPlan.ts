import { z } from 'zod';
import { Failure } from '../../core/failure.js';
import { CATALOGUE, findExercise } from '../exercises/catalogue.js';
import type { Exercise } from '../exercises/exercise.js';
import { type Load, parseLoad } from './load.js';
import type { Plan, Stage } from './plan.js';
import { parseReps } from './stage.js';
import { parseTempo } from './tempo.js';
import { flagRead, numberRead, parseValidatedYaml, textRead } from './validatedYaml.js';

/** A stage with the load it is done with, where it has its own. */
export interface LoadedStage extends Stage {
  readonly load: Load | null;
}

export interface LoadedPlan extends Plan {
  readonly stages: readonly LoadedStage[];
}

/** One exercise of a session, with as many sets of it as are planned in a row. */
export interface PlannedExercise {
  readonly exerciseId: string;
  readonly sets: number;
  readonly plan: LoadedPlan;
  /** The load of the set; stages may have their own. */
  readonly load: Load | null;
  /** Exercises with the same pair name are done back to back. */
  readonly pair: string | null;
}

export interface SessionPlan {
  readonly name: string | null;
  readonly lifter: string | null;
  readonly exercises: readonly PlannedExercise[];
}

const REMEDY = 'Each exercise needs its name, and may have sets, tempo, reps, load, rest, pair, or stages.';

const tempo = textRead(parseTempo);
const reps = textRead(parseReps);
const load = textRead(parseLoad);

const stageSchema = z.strictObject({
  tempo: tempo.optional(),
  reps: reps.optional(),
  load: load.optional(),
  partials: flagRead.optional(),
});

/**
 * Reads a session plan: our own form, YAML or JSON.
 *
 * ```yaml
 * name: Garage, Tuesday
 * lifter: Kim                   # optional: whose history the sets belong to
 * exercises:
 *   - exercise: single-arm-row  # an id of the catalogue or of your own exercises
 *     sets: 3                   # 1 where not given
 *     tempo: 4-0-X-1            # eccentric, stretched hold, concentric, contracted hold
 *     reps: 8-10                # per side for one-armed work
 *     load: 16kg                # kg, lb, bodyweight or pin 7
 *     rest: 90                  # seconds, or 1:30, after each set
 *     pair: A                   # same letter: done back to back
 *   - exercise: lateral-raise
 *     stages:                   # instead of tempo and reps: parts of one set
 *       - { tempo: 5-0-1-1, reps: 8-10, load: 5kg }
 *       - { tempo: 1-0-X-0, reps: 5-10, partials: false }
 * ```
 *
 * @param exercises the catalogue, with the user's own exercises where there are any.
 * @throws Failure (usage) with file, line and column.
 */
export function parseSessionPlan(
  text: string,
  fileName: string,
  exercises: readonly Exercise[] = CATALOGUE,
): SessionPlan {
  return parseValidatedYaml(text, sessionSchema(exercises), fileName, REMEDY);
}

/**
 * Reads a rest: seconds (`90`, `90s`), minutes (`2 min`) or both (`1:30`).
 *
 * @throws Failure (usage) where it is none of these.
 */
export function parseRestSeconds(text: string): number {
  const clock = /^\s*(\d{1,2}):([0-5]\d)\s*$/.exec(text);
  if (clock !== null) return Number(clock[1]) * 60 + Number(clock[2]);
  const plain = /^\s*(\d+(?:\.\d+)?)\s*(s|sec|seconds|min|minutes)?\s*$/.exec(text);
  if (plain === null) {
    throw new Failure('usage', `The rest "${text}" cannot be read.`, 'Write 90, 90s, 2 min or 1:30.');
  }
  return Number(plain[1]) * (plain[2]?.startsWith('m') === true ? 60 : 1);
}

function sessionSchema(exercises: readonly Exercise[]) {
  const entry = z
    .strictObject({
      exercise: textRead((id) => findExercise(id, exercises).id),
      sets: numberRead(1, 50).optional(),
      tempo: tempo.optional(),
      reps: reps.optional(),
      load: load.optional(),
      rest: textRead(parseRestSeconds).optional(),
      pair: z.string().optional(),
      stages: z.array(stageSchema, 'expected a list of stages').min(1, 'no stage is listed').optional(),
    })
    .refine((one) => one.stages === undefined || (one.tempo === undefined && one.reps === undefined), {
      path: ['stages'],
      message: 'tempo and reps belong inside the stages where there are stages.',
    })
    .refine((one) => Number.isInteger(one.sets ?? 1), {
      path: ['sets'],
      message: 'half sets cannot be planned.',
    });
  return z
    .strictObject({
      name: z.string().optional(),
      lifter: z.string().optional(),
      exercises: z.array(entry, 'expected a list of exercises').min(1, 'no exercise is listed'),
    })
    .transform(
      (session): SessionPlan => ({
        name: session.name ?? null,
        lifter: session.lifter ?? null,
        exercises: session.exercises.map((one) => plannedExercise(one)),
      }),
    );

  function plannedExercise(one: z.output<typeof entry>): PlannedExercise {
    const single =
      one.tempo === undefined && one.reps === undefined ? [] : [{ tempo: one.tempo, reps: one.reps }];
    const stages: readonly z.output<typeof stageSchema>[] = one.stages ?? single;
    return {
      exerciseId: one.exercise,
      sets: one.sets ?? 1,
      plan: { stages: stages.map(loadedStage), restSeconds: one.rest ?? null },
      load: one.load ?? null,
      pair: one.pair ?? null,
    };
  }
}

function loadedStage(stage: z.output<typeof stageSchema>): LoadedStage {
  return {
    tempo: stage.tempo ?? null,
    reps: stage.reps ?? null,
    load: stage.load ?? null,
    ...(stage.partials === undefined ? {} : { partials: stage.partials }),
  };
}
