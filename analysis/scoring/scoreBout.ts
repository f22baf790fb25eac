import type { Plan, Stage } from '../plan/plan.js';
import type { BoutReport } from '../report/setReport.js';
import type { MeasuredRep } from '../segmentation/bout.js';
import type { EachSide } from '../segmentation/eachSide.js';
import { summarizeBout } from './boutSummary.js';
import { baselineOfEarlierSets, type EarlierRange } from './earlierRange.js';
import { type Baseline, findBaseline, isMovementOnly, isPartialRep, rangeOfRep } from './range.js';
import { scoreRep } from './scoreRep.js';
import type { BoutToScore } from './scoreSet.js';
import { assignStages } from './stages.js';
import { secondsIn, type Tolerance } from './tempoVerdict.js';

export interface BoutInput {
  readonly bout: BoutToScore;
  readonly plan: Plan | null;
  /** Stage of the plan the bout begins with, from 1. */
  readonly firstStage: number;
  readonly earlierRanges: readonly EarlierRange[];
  readonly tolerance: Tolerance;
}

/** Scores one bout: stages, baseline, every rep, then the summary. Rep numbers run through all stages. */
export function scoreBout(input: BoutInput): BoutReport {
  const { bout, plan } = input;
  const baseline = baselineOf(input);
  const measured = bout.reps.filter((rep) => !isMovementRep(rep, baseline));
  const { stageOfRep, switches } = assignStages(measured, plan, input.firstStage);
  const context = {
    baseline,
    lastRep: measured.at(-1),
    quickestConcentricSeconds: quickestConcentric(measured, baseline),
    tolerance: input.tolerance,
  };
  const reps = measured.map((rep, index) => {
    const stageNumber = stageOfRep[index] ?? null;
    return scoreRep({ rep, number: index + 1, stageNumber, stage: stageIn(plan, stageNumber) }, context);
  });
  return {
    side: bout.side,
    measuredSides: [...bout.measuredSides],
    view: {
      facing: bout.view.facing,
      degreesOffSide: bout.view.degreesOffSide,
      uncertaintyDegrees: bout.view.uncertaintyDegrees,
    },
    startSeconds: reps[0]?.startSeconds ?? 0,
    endSeconds: lastMoveEnd(measured),
    reps,
    summary: {
      ...summarizeBout(reps, plan),
      stageSwitches: switches.map((one) => ({ ...one })),
      baselineRangeDegrees: baseline?.degrees ?? null,
      baselineEarlierSets: baseline?.earlierSets ?? null,
    },
    ...eachSideReport(bout.eachSide ?? null),
  };
}

function eachSideReport(of: EachSide | null): Pick<BoutReport, 'leadingSide' | 'sides'> {
  if (of === null) return {};
  return {
    leadingSide: of.leadingSide && { ...of.leadingSide },
    sides: of.sides.map((side) => ({ ...side })),
  };
}

function baselineOf({ bout, plan, firstStage, earlierRanges }: BoutInput): Baseline | null {
  const { stageOfRep } = assignStages(bout.reps, plan, firstStage);
  const firstStageReps = bout.reps.filter((_, index) => stageOfRep[index] === stageOfRep[0]);
  const earlier = baselineOfEarlierSets(earlierRanges, {
    side: bout.side,
    facing: bout.view.facing,
    degreesOffSide: bout.view.degreesOffSide,
    stage: stageIn(plan, stageOfRep[0] ?? null),
  });
  return findBaseline(firstStageReps, earlier, bout.driving?.sharedUncertaintyDegrees ?? null);
}

function stageIn(plan: Plan | null, number: number | null): Stage | null {
  return number === null ? null : (plan?.stages[number - 1] ?? null);
}

/** Under 30 % of the range is movement, not a rep. */
function isMovementRep(rep: MeasuredRep, baseline: Baseline | null): boolean {
  const range = rangeOfRep(rep);
  return rep.complete && range !== null && baseline !== null && isMovementOnly(range, baseline);
}

/** Of the whole reps: a partial one is quick because it is short. */
function quickestConcentric(reps: readonly MeasuredRep[], baseline: Baseline | null): number {
  const seconds = reps
    .filter((rep) => rep.complete && !isPartialRep(rep, baseline))
    .map((rep) => secondsIn(rep, 'concentric') ?? 0)
    .filter((value) => value > 0);
  return Math.min(...seconds);
}

/** A bout ends with its last move: a hold after it is open-ended. */
function lastMoveEnd(reps: readonly MeasuredRep[]): number {
  const phases = reps.at(-1)?.phases ?? [];
  const lastMove = phases.findLast((phase) => phase.kind === 'eccentric' || phase.kind === 'concentric');
  return (lastMove ?? phases.at(-1))?.end.seconds ?? 0;
}
