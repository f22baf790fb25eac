import type { Plan, PlannedSeconds, RepRange, Stage } from '../plan/plan.js';
import type { MeasuredRep } from '../segmentation/bout.js';
import { bestSplit, type Features } from './changePoints.js';
import { secondsIn } from './tempoVerdict.js';

/** Where the lifter went from one stage's tempo to the next, beside the plan. Reps and stages from 1. */
export interface StageSwitch {
  readonly fromStage: number;
  readonly afterRep: number;
  readonly plannedAfterRep: RepRange | null;
}

export interface StageAssignment {
  /** Number of the planned stage of each rep, from 1; null without a plan. */
  readonly stageOfRep: readonly (number | null)[];
  /** The switches that were seen; a stage that was never begun has none. */
  readonly switches: readonly StageSwitch[];
}

/** How an explosive lift is counted when tempos are told apart; the plan names no seconds. */
const EXPLOSIVE_SECONDS = 0.8;
/** Planned times closer than this ratio tell no stages apart. */
const LEAST_PLANNED_RATIO = 1.5;

/**
 * Gives every rep its planned stage.
 *
 * Where the lifter really switched is a change point on the logarithms of the phase times the plan changes
 * (the eccentric above all). Within the plan's rep range the switch is the lifter's to choose; outside it the
 * plan stands, so a switch that came early leaves reps that are judged against the earlier stage.
 *
 * @param firstStage the stage the bout begins with, from 1 (later where a rest split a set).
 */
export function assignStages(
  reps: readonly MeasuredRep[],
  plan: Plan | null,
  firstStage = 1,
): StageAssignment {
  const stages = plan?.stages.slice(firstStage - 1) ?? [];
  if (stages.length === 0) return { stageOfRep: reps.map(() => null), switches: [] };
  const found = findSwitches(reps, stages);
  const stageOfRep: number[] = [];
  const switches: StageSwitch[] = [];
  let begun = 0;
  for (const [index, stage] of stages.entries()) {
    const last = index === stages.length - 1;
    const seen = found[index] ?? null;
    const planned = stage.reps === null ? null : { min: begun + stage.reps.min, max: begun + stage.reps.max };
    if (seen !== null && !last) {
      switches.push({ fromStage: firstStage + index, afterRep: seen, plannedAfterRep: planned });
    }
    const end = last ? reps.length : Math.min(reps.length, stageEnd(seen, planned, reps.length));
    while (stageOfRep.length < end) stageOfRep.push(firstStage + index);
    begun = Math.max(begun, end);
  }
  return { stageOfRep, switches };
}

/** Whether the reps of a bout that follows a rest look like the next stage of the plan rather than its first. */
export function continuesWith(reps: readonly MeasuredRep[], first: Stage, next: Stage): boolean {
  const distance = (stage: Stage) =>
    reps.reduce((sum, rep) => {
      const seconds = secondsIn(rep, 'eccentric');
      const planned = plannedSecondsOf(stage, 'eccentric');
      return seconds === null || planned === null
        ? sum
        : sum + Math.abs(logSeconds(seconds) - Math.log(planned));
    }, 0);
  return comparable(first, next, 'eccentric') && distance(next) < distance(first);
}

function stageEnd(seen: number | null, planned: RepRange | null, count: number): number {
  if (planned === null) return seen ?? count;
  return seen === null ? planned.max : Math.min(planned.max, Math.max(planned.min, seen));
}

/** The rep after which each stage ended, for as many stages as were really done. */
function findSwitches(reps: readonly MeasuredRep[], stages: readonly Stage[]): readonly number[] {
  const kinds = (['eccentric', 'concentric'] as const).filter((kind) =>
    stages.some((stage, index) => index > 0 && comparable(stages[index - 1]!, stage, kind)),
  );
  if (kinds.length === 0) return [];
  const features: Features = reps.map((rep) =>
    kinds.map((kind) => {
      const seconds = rep.complete ? secondsIn(rep, kind) : null;
      return seconds === null ? null : logSeconds(seconds);
    }),
  );
  const changes = stages.slice(1).map((stage, index) =>
    kinds.map((kind) => {
      const before = plannedSecondsOf(stages[index]!, kind);
      const after = plannedSecondsOf(stage, kind);
      return comparable(stages[index]!, stage, kind) ? Math.log(after! / before!) : null;
    }),
  );
  const leastReps = stages.map((stage) => stage.reps?.min ?? 1);
  return bestSplit(features, changes, leastReps);
}

function comparable(first: Stage, second: Stage, kind: 'eccentric' | 'concentric'): boolean {
  const before = plannedSecondsOf(first, kind);
  const after = plannedSecondsOf(second, kind);
  if (before === null || after === null) return false;
  return Math.abs(Math.log(after / before)) >= Math.log(LEAST_PLANNED_RATIO);
}

function plannedSecondsOf(stage: Stage, kind: 'eccentric' | 'concentric'): number | null {
  const planned: PlannedSeconds = stage.tempo?.[kind] ?? null;
  return planned === 'X' ? EXPLOSIVE_SECONDS : planned;
}

function logSeconds(seconds: number): number {
  return Math.log(Math.max(0.1, seconds));
}
