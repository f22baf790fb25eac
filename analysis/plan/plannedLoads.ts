import { formatLoad, type Load } from './load.js';
import type { PlannedExercise } from './sessionPlan.js';

/** What was moved in a set. */
export interface SetLoads {
  /** The load of the set, or of its first stage; null where none is known. */
  readonly load: Load | null;
  /** One load a stage where they differ; null where the load stays the same. */
  readonly stageLoads: readonly Load[] | null;
}

/** The loads a plan wants of a set: a stage without its own goes on with the load of the one before. */
export function plannedLoads({ plan, load }: PlannedExercise): SetLoads {
  const loads: (Load | null)[] = [];
  for (const stage of plan.stages) loads.push(stage.load ?? (loads.length === 0 ? load : loads.at(-1)!));
  return setLoads(
    loads.every((one) => one !== null) && loads.length > 0 ? loads : load === null ? [] : [load],
  );
}

/** The loads of a set from one load a stage, or one for all; none: not known. */
export function setLoads(loads: readonly Load[]): SetLoads {
  const [first, ...others] = loads;
  if (first === undefined) return { load: null, stageLoads: null };
  const differ = others.some((one) => formatLoad(one) !== formatLoad(first));
  return { load: first, stageLoads: differ ? loads : null };
}
