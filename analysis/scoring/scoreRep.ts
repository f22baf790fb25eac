import type { Stage } from '../plan/plan.js';
import type { PhaseReport, RepReport } from '../report/setReport.js';
import type { MeasuredPhase, MeasuredRep } from '../segmentation/bout.js';
import { type Baseline, isPartialRange, isPartialRep, scoreRange } from './range.js';
import { judgePhase, PLANNED_FIELD, phaseSeconds, secondsIn, type Tolerance } from './tempoVerdict.js';

/** What every rep of a bout is held against. */
export interface BoutContext {
  readonly baseline: Baseline | null;
  readonly lastRep: MeasuredRep | undefined;
  readonly quickestConcentricSeconds: number;
  readonly tolerance: Tolerance;
}

export interface RepInput {
  readonly rep: MeasuredRep;
  readonly number: number;
  readonly stageNumber: number | null;
  readonly stage: Stage | null;
}

/** Scores one rep. */
export function scoreRep(input: RepInput, context: BoutContext): RepReport {
  const { rep, stage } = input;
  const failed = isFailed(input, context);
  const plannedPartial = stage?.partials === true;
  return {
    number: input.number,
    side: rep.side,
    stage: input.stageNumber,
    complete: rep.complete,
    partial: !failed && isPartialRep(rep, context.baseline),
    failed,
    startSeconds: rep.phases[0]?.start.seconds ?? 0,
    endSeconds: rep.phases.at(-1)?.end.seconds ?? 0,
    phases: rep.phases.map((phase) => scorePhase(phase, input, context, failed)),
    range: scoreRange(rep, context.baseline, plannedPartial),
    concentricSpeedDegreesPerSecond: concentricSpeed(rep),
    trunkSwingDegrees: rep.trunkSwingDegrees ?? null,
    stickingRegion: stickingRegion(input),
  };
}

function scorePhase(
  phase: MeasuredPhase,
  { rep, stage }: RepInput,
  context: BoutContext,
  failed: boolean,
): PhaseReport {
  const planned = stage?.tempo?.[PLANNED_FIELD[phase.kind]] ?? null;
  const hold = phase.kind === 'stretched-hold' || phase.kind === 'contracted-hold';
  return {
    kind: phase.kind,
    startSeconds: phase.start.seconds,
    endSeconds: phase.end.seconds,
    seconds: phaseSeconds(phase),
    uncertaintySeconds: phase.uncertaintySeconds,
    plannedSeconds: planned,
    verdict: judgePhase(phase, {
      planned,
      tolerance: context.tolerance,
      quickestConcentricSeconds: context.quickestConcentricSeconds,
      openEnded: hold && rep === context.lastRep && phase === rep.phases.at(-1),
      incomplete: !rep.complete || (failed && phase.kind === 'concentric'),
    }),
    ...(hold ? {} : { ...halves(phase), stalls: phase.stalls.map((stall) => ({ ...stall })) }),
  };
}

/** How even a move was: the seconds spent in each half of the angle travelled. */
function halves(phase: MeasuredPhase): Pick<PhaseReport, 'firstHalfSeconds' | 'secondHalfSeconds'> {
  if (phase.middleSeconds === null) return { firstHalfSeconds: null, secondHalfSeconds: null };
  return {
    firstHalfSeconds: Math.max(0, phase.middleSeconds - phase.start.seconds),
    secondHalfSeconds: Math.max(0, phase.end.seconds - phase.middleSeconds),
  };
}

/** The last rep of a bout whose concentric excursion stays under 60 % of the baseline: the lift was not made. */
function isFailed({ rep, stage }: RepInput, { baseline, lastRep }: BoutContext): boolean {
  const excursion = rep.concentricExcursion;
  if (baseline === null || excursion === null || !rep.complete) return false;
  return stage?.partials !== true && rep === lastRep && isPartialRange(excursion, baseline);
}

/** Mean speed of the driving angle during the concentric. */
function concentricSpeed(rep: MeasuredRep): number | null {
  const seconds = secondsIn(rep, 'concentric');
  if (!rep.complete || rep.concentricExcursion === null || seconds === null || seconds === 0) return null;
  return rep.concentricExcursion.degrees / seconds;
}

/** Only of explosive or free lifts: a paced lift has no sticking region of its own. */
function stickingRegion({ rep, stage }: RepInput): RepReport['stickingRegion'] {
  const planned = stage?.tempo?.concentric ?? null;
  const region = rep.stickingRegion ?? null;
  return region !== null && (planned === null || planned === 'X') ? { ...region } : null;
}
