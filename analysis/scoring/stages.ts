import { median, sum } from 'simple-statistics';
import type { Plan, RepRange, Stage } from '../plan/plan.js';

/** What stages are told apart by: the lowering and the lift of a rep, seconds; null where cut away. */
export interface RepTiming {
  readonly eccentricSeconds: number | null;
  readonly concentricSeconds: number | null;
}

export interface StageSwitch {
  readonly fromStage: number;
  readonly afterRep: number;
  /** After which rep the plan wanted the change; null where it names no counts. */
  readonly plannedAfterRep: RepRange | null;
}

export interface StageAssignment {
  /** The stage of each rep, from 1; null without a plan. */
  readonly stages: readonly (number | null)[];
  readonly switches: readonly StageSwitch[];
}

/** Splitting a bout into stages must take away this share of the spread of its paces … */
const LEAST_GAIN = 0.35;
/** … and the paces must really step: by this much on the scale of logarithms (a fifth quicker or slower). */
const LEAST_STEP = 0.2;

/**
 * Which planned stage each rep of a bout was: the split into runs, one a stage, that makes the paces within the runs
 * most alike and nearest to the plan. A change point, since a lifter switches when the slow reps fail and not when
 * the plan says.
 *
 * @param timings of all reps of the bout, in order
 */
export function assignStages(timings: readonly RepTiming[], plan: Plan | null): StageAssignment {
  if (plan === null) return { stages: timings.map(() => null), switches: [] };
  if (plan.stages.length === 1 || timings.length === 0) return { stages: timings.map(() => 1), switches: [] };
  const cuts = bestCuts(timings.map(paceOf), plan.stages);
  const stages = timings.map((_, i) => 1 + cuts.filter((cut) => cut <= i).length);
  const switches = cuts
    .map((cut, i) => ({ fromStage: i + 1, afterRep: cut, plannedAfterRep: plannedEnd(plan.stages, i) }))
    .filter(({ afterRep }) => afterRep > 0 && afterRep < timings.length);
  return { stages, switches };
}

/** Logarithm of the time both moves took, since ratios of pace matter and not seconds. */
function paceOf({ eccentricSeconds, concentricSeconds }: RepTiming): number | null {
  if (eccentricSeconds === null) return null;
  return Math.log(Math.max(0.2, eccentricSeconds + (concentricSeconds ?? 0)));
}

function plannedPace(stage: Stage): number | null {
  const eccentric = stage.tempo?.eccentric ?? null;
  const concentric = stage.tempo?.concentric ?? null;
  if (eccentric === null) return null;
  const quick = 0.7;
  const seconds =
    (typeof eccentric === 'number' ? eccentric : quick) +
    (typeof concentric === 'number' ? concentric : quick);
  return Math.log(Math.max(0.4, seconds));
}

/** The index of the rep at which each later stage begins; the number of reps where a stage was not reached. */
function bestCuts(paces: readonly (number | null)[], stages: readonly Stage[]): readonly number[] {
  const count = paces.length;
  const planned = stages.map(plannedPace);
  const none = stages.slice(1).map(() => count);
  let best = { cost: Number.POSITIVE_INFINITY, spread: 0, cuts: none };
  for (const cuts of allCuts(count, stages.length - 1)) {
    const edges = [0, ...cuts, count];
    const run = (i: number) => paces.slice(edges[i]!, edges[i + 1]!).filter((pace) => pace !== null);
    const spread = sum(stages.map((_, i) => distanceFrom(run(i), null)));
    const fromPlan = sum(stages.map((_, i) => distanceFrom(run(i), planned[i]!)));
    const miscounted = sum(stages.map((stage, i) => outside(stage.reps, edges[i + 1]! - edges[i]!)));
    const cost = spread + 0.5 * fromPlan + 0.01 * miscounted;
    if (cost < best.cost - 1e-12) best = { cost, spread, cuts };
  }
  const whole = distanceFrom(
    paces.filter((pace) => pace !== null),
    null,
  );
  return whole - best.spread >= LEAST_GAIN * whole && stepsAtCuts(paces, best.cuts) ? best.cuts : none;
}

function stepsAtCuts(paces: readonly (number | null)[], cuts: readonly number[]): boolean {
  const edges = [0, ...cuts, paces.length];
  const centres = edges.slice(1).flatMap((end, i) => {
    const run = paces.slice(edges[i]!, end).filter((pace) => pace !== null);
    return run.length === 0 ? [] : [median(run)];
  });
  return centres.slice(1).every((centre, i) => Math.abs(centre - centres[i]!) >= LEAST_STEP);
}

/** Sum of the distances of paces from their own median, or from a planned pace. */
function distanceFrom(paces: readonly number[], planned: number | null): number {
  if (paces.length === 0) return 0;
  const centre = planned ?? median([...paces]);
  return sum(paces.map((pace) => Math.abs(pace - centre)));
}

function outside(reps: RepRange | null, count: number): number {
  return reps === null ? 0 : Math.max(0, reps.min - count, count - reps.max);
}

function* allCuts(count: number, cuts: number, from = 0): Generator<number[]> {
  if (cuts === 0) {
    yield [];
    return;
  }
  for (let first = from; first <= count; first++) {
    for (const rest of allCuts(count, cuts - 1, first)) yield [first, ...rest];
  }
}

/** After which rep the plan wants a stage to end, counted over all stages up to it. */
function plannedEnd(stages: readonly Stage[], index: number): RepRange | null {
  let [min, max] = [0, 0];
  for (const { reps } of stages.slice(0, index + 1)) {
    if (reps === null) return null;
    min += reps.min;
    max += reps.max;
  }
  return { min, max };
}
