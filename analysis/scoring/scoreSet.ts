import { median } from 'simple-statistics';
import type { View } from '../../core/motion/view.js';
import type { Plan, PlannedSeconds, Stage, Tempo } from '../plan/plan.js';
import type { BoutReport, PhaseReport, RepReport, RestReport, SymmetryReport } from '../report/setReport.js';
import type { MeasuredBout, MeasuredPhase, MeasuredRep, PhaseKind } from '../segmentation/bout.js';
import {
  concentricOf,
  concentricSpeedLoss,
  countsAsComplete,
  deliveredLowering,
  eccentricOf,
  lastControlledRep,
  trendOverReps,
} from './fatigue.js';
import {
  type Baseline,
  baselineOf,
  firstOfTwoInARow,
  isPartialExcursion,
  rangeOf,
  scoreRange,
} from './range.js';
import { restsBetween } from './rests.js';
import { assignStages, type StageAssignment } from './stages.js';
import { compareSides } from './symmetry.js';
import { DEFAULT_TOLERANCE, type Tolerance, tempoVerdict } from './tempoVerdict.js';

export interface ScoringRequest {
  readonly plan: Plan | null;
  readonly tolerance?: Tolerance;
  /** Median range of the lifter's earlier sets, degrees, for bouts too short to have a baseline of their own. */
  readonly baselineRangeDegrees: number | null;
}

/** A bout as measured, with the view it was filmed from. */
export interface BoutToScore extends MeasuredBout {
  readonly view: View;
}

export interface ScoredSet {
  readonly bouts: readonly BoutReport[];
  readonly rests: readonly RestReport[];
  readonly symmetry: SymmetryReport | null;
}

/** Holds measured bouts, in order of time, against the plan. */
export function scoreSet(bouts: readonly BoutToScore[], request: ScoringRequest): ScoredSet {
  const scored = bouts.map((bout) => scoreBout(bout, request));
  return {
    bouts: scored,
    rests: restsBetween(scored, request.plan?.restSeconds ?? null),
    symmetry: compareSides(scored),
  };
}

function scoreBout(bout: BoutToScore, request: ScoringRequest): BoutReport {
  const { plan } = request;
  const assignment = assignStages(bout.reps.map(timingOf), plan);
  const firstStage = bout.reps.filter((_, i) => (assignment.stages[i] ?? 1) === (assignment.stages[0] ?? 1));
  const baseline = baselineOf(firstStage, request.baselineRangeDegrees);
  const lifts = bout.reps.filter((rep) => rep.complete).map((rep) => timingOf(rep).concentricSeconds);
  const quickestLift = Math.min(...lifts.filter((seconds) => seconds !== null));
  const reps = bout.reps.map((rep, i): RepReport => {
    const stage = assignment.stages[i] ?? null;
    const tempo = stage === null ? null : (plan?.stages[stage - 1]?.tempo ?? null);
    const isLast = i === bout.reps.length - 1;
    return scoreRep(rep, i + 1, stage, {
      tempo,
      baseline,
      quickestLift,
      isLast,
      tolerance: request.tolerance ?? DEFAULT_TOLERANCE,
    });
  });
  const moves = reps.flatMap((rep) => rep.phases.filter(isMove));
  return {
    side: bout.side,
    measuredSides: [...bout.measuredSides],
    view: {
      facing: bout.view.facing,
      degreesOffSide: bout.view.degreesOffSide,
      uncertaintyDegrees: bout.view.uncertaintyDegrees,
    },
    startSeconds: reps[0]?.startSeconds ?? 0,
    endSeconds: moves[moves.length - 1]?.endSeconds ?? 0,
    reps,
    summary: summarize(reps, assignment, plan?.stages ?? [], baseline),
  };
}

interface RepContext {
  readonly tempo: Tempo | null;
  readonly baseline: Baseline | null;
  readonly quickestLift: number;
  readonly isLast: boolean;
  readonly tolerance: Tolerance;
}

function scoreRep(rep: MeasuredRep, number: number, stage: number | null, context: RepContext): RepReport {
  const { baseline, isLast } = context;
  const failed = isLast && rep.complete && isPartialExcursion(rep.concentricExcursion, baseline);
  const phases = rep.phases.map((phase, i) =>
    scorePhase(phase, rep.complete, isLast && i === rep.phases.length - 1, context),
  );
  const lift = rep.phases.find((phase) => phase.kind === 'concentric');
  return {
    number,
    side: rep.side,
    stage,
    complete: rep.complete,
    partial: !failed && rep.complete && isPartialExcursion(rangeOf(rep), baseline),
    failed,
    startSeconds: phases[0]!.startSeconds,
    endSeconds: phases[phases.length - 1]!.endSeconds,
    phases,
    range: scoreRange(rep, baseline),
    concentricSpeedDegreesPerSecond: rep.concentricExcursion === null ? null : meanSpeed(lift),
    trunkSwingDegrees: rep.trunkSwingDegrees ?? null,
    stickingRegion: null,
  };
}

function meanSpeed(lift: MeasuredPhase | undefined): number | null {
  if (lift === undefined) return null;
  const seconds = lift.end.seconds - lift.start.seconds;
  return seconds <= 0 ? null : Math.abs(lift.toDegrees - lift.fromDegrees) / seconds;
}

function scorePhase(
  phase: MeasuredPhase,
  complete: boolean,
  isOpenEnded: boolean,
  context: RepContext,
): PhaseReport {
  const seconds = phase.end.seconds - phase.start.seconds;
  const planned = plannedFor(phase.kind, context.tempo);
  const measured = { seconds, uncertaintySeconds: phase.uncertaintySeconds };
  // Where the film cuts a rep nobody knows how long its phases really were; the last hold has no end of its own.
  const judged = complete && !(isOpenEnded && isHold(phase.kind));
  const middle = phase.middleSeconds;
  return {
    kind: phase.kind,
    startSeconds: phase.start.seconds,
    endSeconds: phase.end.seconds,
    seconds,
    uncertaintySeconds: phase.uncertaintySeconds,
    plannedSeconds: planned,
    verdict: judged
      ? tempoVerdict(phase.kind, measured, planned, context.quickestLift, context.tolerance)
      : null,
    firstHalfSeconds: middle === null ? null : middle - phase.start.seconds,
    secondHalfSeconds: middle === null ? null : phase.end.seconds - middle,
    stalls: phase.stalls.map((stall) => ({ ...stall })),
  };
}

function plannedFor(kind: PhaseKind, tempo: Tempo | null): PlannedSeconds {
  if (tempo === null) return null;
  switch (kind) {
    case 'eccentric':
      return tempo.eccentric;
    case 'stretched-hold':
      return tempo.stretchedHold;
    case 'concentric':
      return tempo.concentric;
    case 'contracted-hold':
      return tempo.contractedHold;
  }
}

function isHold(kind: PhaseKind): boolean {
  return kind === 'stretched-hold' || kind === 'contracted-hold';
}

function isMove(phase: PhaseReport): boolean {
  return !isHold(phase.kind);
}

function timingOf(rep: MeasuredRep) {
  const secondsOf = (kind: PhaseKind) => {
    const phase = rep.phases.find((one) => one.kind === kind);
    return phase === undefined ? null : phase.end.seconds - phase.start.seconds;
  };
  return { eccentricSeconds: secondsOf('eccentric'), concentricSeconds: secondsOf('concentric') };
}

function summarize(
  reps: readonly RepReport[],
  assignment: StageAssignment,
  stages: readonly Stage[],
  baseline: Baseline | null,
): BoutReport['summary'] {
  const delivered = deliveredLowering(reps);
  const counted = reps.filter(countsAsComplete);
  const compared = reps.filter(
    (rep) => rep.complete && !(rep.stage !== null && stages[rep.stage - 1]?.partials === true),
  );
  const firstStage = counted.filter((rep) => rep.stage === (counted[0]?.stage ?? null));
  const lowerings = firstStage.map(eccentricOf).filter((phase) => phase !== undefined);
  const ranges = counted.map((rep) => rep.range).filter((range) => range !== null);
  return {
    completeReps: counted.length,
    partialReps: reps.filter((rep) => rep.partial).length,
    failedReps: reps.filter((rep) => rep.failed).length,
    timeUnderTensionSeconds: reps.reduce(
      (sum, rep) => sum + rep.phases.reduce((inRep, phase) => inRep + phase.seconds, 0),
      0,
    ),
    deliveredLoweringShare: delivered === null ? null : delivered.deliveredSeconds / delivered.plannedSeconds,
    deliveredLoweringSeconds: delivered?.deliveredSeconds ?? null,
    plannedLoweringSeconds: delivered?.plannedSeconds ?? null,
    lastControlledRep: lastControlledRep(reps),
    firstShortenedRep: firstOfTwoInARow(
      compared.map((rep) => rep.number),
      compared.map((rep) => rep.range?.shortened === true),
    ),
    concentricSpeedLoss: concentricSpeedLoss(reps),
    stageSwitches: assignment.switches.map((change) => ({ ...change })),
    baselineRangeDegrees: baseline?.rangeDegrees ?? null,
    eccentricTrend: trendOverReps(
      lowerings.map((phase) => phase.seconds),
      lowerings.map((phase) => phase.uncertaintySeconds),
    ),
    rangeTrend: trendOverReps(
      ranges.map((range) => range.degrees),
      ranges.map((range) => range.uncertaintyDegrees),
    ),
  };
}

/** Median seconds of a phase over the complete reps of a bout; null where there is none. */
export function medianSeconds(bout: BoutReport, kind: 'eccentric' | 'concentric'): number | null {
  const pick = kind === 'eccentric' ? eccentricOf : concentricOf;
  const seconds = bout.reps
    .filter(countsAsComplete)
    .map((rep) => pick(rep)?.seconds)
    .filter((value) => value !== undefined);
  return seconds.length === 0 ? null : median(seconds);
}
