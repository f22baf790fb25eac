import { findExercise } from '../../../analysis/exercises/catalogue.js';
import type { Exercise } from '../../../analysis/exercises/exercise.js';
import { type ScoringRequest, scoreSet } from '../../../analysis/scoring/scoreSet.js';
import type {
  MeasuredBout,
  MeasuredDegrees,
  MeasuredPhase,
  MeasuredRep,
  PhaseKind,
} from '../../../analysis/segmentation/bout.js';

/** One rep as a lifter would do it: seconds of each phase and the ends in degrees. */
export interface RepPlan {
  readonly eccentric?: number;
  readonly stretchedHold?: number;
  readonly concentric?: number;
  readonly contractedHold?: number;
  readonly stretched?: number;
  readonly contracted?: number;
  /** Where the concentric ended, if short of the contracted end. */
  readonly liftedTo?: number;
  readonly complete?: boolean;
}

export interface BoutPlan {
  readonly exercise: string;
  readonly reps: readonly RepPlan[];
  readonly side?: 'left' | 'right' | 'both';
  readonly startSeconds?: number;
  readonly uncertaintySeconds?: number;
  /** Null: the view gives no degrees. */
  readonly uncertaintyDegrees?: number | null;
}

/** A measured bout without noise, laid out by the definitions: the last rep ends with its last move. */
export function measuredBout(plan: BoutPlan): MeasuredBout {
  const exercise = findExercise(plan.exercise);
  const side = plan.side ?? 'left';
  let clock = plan.startSeconds ?? 0;
  const reps = plan.reps.map((rep, index) => {
    const phases: MeasuredPhase[] = [];
    for (const kind of phaseOrder(exercise)) {
      const lastHold = index === plan.reps.length - 1 && phases.length === 3;
      const phase = measuredPhase(kind, clock, lastHold ? { ...rep, ...NO_HOLDS } : rep, exercise, plan);
      phases.push(phase);
      clock = phase.end.seconds;
    }
    return measuredRep(rep, phases, exercise, side, plan.uncertaintyDegrees);
  });
  return { side, measuredSides: side === 'both' ? ['left'] : [side], reps };
}

/** Scores synthetic bouts in order of time; everything not given is as plain as can be. */
export function score(bouts: readonly BoutPlan[], request: Partial<ScoringRequest> = {}) {
  return scoreMeasured(bouts.map(measuredBout), request);
}

/** Scores bouts given as measured, filmed from the side. */
export function scoreMeasured(bouts: readonly MeasuredBout[], request: Partial<ScoringRequest> = {}) {
  const view = { facing: 'left', degreesOffSide: 5, uncertaintyDegrees: 5 } as const;
  return scoreSet(
    bouts.map((bout) => ({ ...bout, view })),
    { plan: null, ...request },
  );
}

/** The same rep many times. */
export function times(count: number, rep: RepPlan = {}): RepPlan[] {
  return Array.from({ length: count }, () => rep);
}

const NO_HOLDS = { stretchedHold: 0, contractedHold: 0 };

function phaseOrder(exercise: Exercise): readonly PhaseKind[] {
  return exercise.defaultStart === 'stretched'
    ? ['concentric', 'contracted-hold', 'eccentric', 'stretched-hold']
    : ['eccentric', 'stretched-hold', 'concentric', 'contracted-hold'];
}

function endsOf(rep: RepPlan, exercise: Exercise): { stretched: number; contracted: number } {
  const usual = exercise.workingRangeDegrees;
  return {
    stretched: rep.stretched ?? usual.stretched[1],
    contracted: rep.contracted ?? usual.contracted[0],
  };
}

function measuredPhase(
  kind: PhaseKind,
  start: number,
  rep: RepPlan,
  exercise: Exercise,
  plan: BoutPlan,
): MeasuredPhase {
  const seconds = {
    eccentric: rep.eccentric ?? 2,
    'stretched-hold': rep.stretchedHold ?? 0,
    concentric: rep.concentric ?? 1,
    'contracted-hold': rep.contractedHold ?? 0,
  }[kind];
  const { stretched, contracted } = endsOf(rep, exercise);
  const move = kind === 'eccentric' || kind === 'concentric';
  const uncertaintySeconds = plan.uncertaintySeconds ?? 0.05;
  return {
    kind,
    start: { seconds: start, uncertaintySeconds },
    end: { seconds: start + seconds, uncertaintySeconds },
    uncertaintySeconds,
    fromDegrees: kind === 'eccentric' ? contracted : stretched,
    toDegrees: kind === 'eccentric' ? stretched : contracted,
    middleSeconds: move ? start + seconds / 2 : null,
    stalls: [],
  };
}

function measuredRep(
  rep: RepPlan,
  phases: readonly MeasuredPhase[],
  exercise: Exercise,
  side: MeasuredBout['side'],
  uncertaintyDegrees: number | null = 2,
): MeasuredRep {
  const { stretched, contracted } = endsOf(rep, exercise);
  const measured = (degrees: number): MeasuredDegrees | null =>
    uncertaintyDegrees === null ? null : { degrees, uncertaintyDegrees };
  return {
    side,
    complete: rep.complete ?? true,
    phases,
    stretched: measured(stretched),
    contracted: measured(contracted),
    eccentricExcursion: measured(Math.abs(contracted - stretched)),
    concentricExcursion: measured(Math.abs((rep.liftedTo ?? contracted) - stretched)),
  };
}
