import type { Plan, Stage } from '../../analysis/plan/plan.js';
import { parseReps, parseStage } from '../../analysis/plan/stage.js';
import { parseTempo } from '../../analysis/plan/tempo.js';
import { Failure } from '../../core/failure.js';
import type { SetOptions } from '../options/setOptions.js';

type PlanOptions = Pick<SetOptions, 'tempo' | 'reps' | 'stage' | 'rest'>;

/**
 * The plan that the command line states, or null where it states none.
 *
 * @throws Failure (usage) where a tempo, reps or stage can't be read, or where two ways of stating a plan are mixed.
 */
export function planOfOptions({ tempo, reps, stage = [], rest }: PlanOptions): Plan | null {
  if (stage.length > 0 && (tempo !== undefined || reps !== undefined)) {
    throw new Failure(
      'usage',
      '--stage states tempo and reps together, so --tempo and --reps are of no use beside it.',
      'Write --stage 4-0-1-1:8-10 for each part of the set, or --tempo and --reps for a set of one part.',
    );
  }
  const stages = stage.length > 0 ? stage.map(parseStage) : onlyStage(tempo, reps);
  if (stages.length === 0 && rest === undefined) return null;
  return { stages, restSeconds: rest ?? null };
}

/** A rest alone leaves tempo and reps as they were planned; any other plan takes the place of the whole. */
export function planOver(now: Plan | null, before: Plan | null): Plan | null {
  if (now === null || before === null) return now ?? before;
  return now.stages.length === 0 ? { ...before, restSeconds: now.restSeconds } : now;
}

function onlyStage(tempo: string | undefined, reps: string | undefined): readonly Stage[] {
  if (tempo === undefined && reps === undefined) return [];
  return [
    {
      tempo: tempo === undefined ? null : parseTempo(tempo),
      reps: reps === undefined ? null : parseReps(reps),
    },
  ];
}
