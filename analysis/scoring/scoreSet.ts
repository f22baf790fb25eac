import type { JointSamples } from '../../core/motion/jointSamples.js';
import type { View } from '../../core/motion/view.js';
import type { Exercise } from '../exercises/exercise.js';
import type { Plan } from '../plan/plan.js';
import type { BoutReport, RestReport, SymmetryReport } from '../report/setReport.js';
import type { MeasuredBout } from '../segmentation/bout.js';
import type { EachSide } from '../segmentation/eachSide.js';
import type { EarlierRange } from './earlierRange.js';
import { findRests } from './rests.js';
import { scoreBout } from './scoreBout.js';
import { continuesWith } from './stages.js';
import { compareSides } from './symmetry.js';
import { DEFAULT_TOLERANCE, type Tolerance } from './tempoVerdict.js';

export interface ScoringRequest {
  readonly plan: Plan | null;
  readonly tolerance?: Tolerance;
  /** The lifter's earlier sets, in order of recording, for bouts too short to have a baseline of their own. */
  readonly earlierRanges?: readonly EarlierRange[];
  /** Words for the sentence about the sides. */
  readonly words?: Exercise['words'];
}

/** A bout as measured, with the view it was filmed from. Times are real seconds (slow motion undone). */
export interface BoutToScore extends MeasuredBout {
  readonly view: Pick<View, 'facing' | 'degreesOffSide' | 'uncertaintyDegrees'>;
  /** What the driving angle is worth, where it is known. */
  readonly driving?: Pick<JointSamples, 'sharedUncertaintyDegrees'>;
  /** Range of each limb and which one leads, where two limbs work and the camera sees both. */
  readonly eachSide?: EachSide | null;
}

export interface ScoredSet {
  readonly bouts: readonly BoutReport[];
  readonly rests: readonly RestReport[];
  readonly symmetry: SymmetryReport | null;
}

/** Holds measured bouts, in order of time, against the plan and against themselves. */
export function scoreSet(bouts: readonly BoutToScore[], request: ScoringRequest): ScoredSet {
  const scored: BoutReport[] = [];
  for (const bout of bouts.filter((one) => one.reps.length > 0)) {
    scored.push(
      scoreBout({
        bout,
        plan: request.plan,
        firstStage: firstStageOf(bout, scored, request.plan),
        earlierRanges: request.earlierRanges ?? [],
        tolerance: request.tolerance ?? DEFAULT_TOLERANCE,
      }),
    );
  }
  return {
    bouts: scored,
    rests: findRests(scored, request.plan?.restSeconds ?? null),
    symmetry: compareSides(scored, request.words),
  };
}

/**
 * The stage a bout begins with: the first, or the next one where the same side's bout before it stopped short of
 * the plan's last stage and this one looks like its continuation after a rest.
 */
function firstStageOf(bout: MeasuredBout, before: readonly BoutReport[], plan: Plan | null): number {
  const previous = before.findLast((one) => one.side === bout.side);
  const done = previous?.reps.at(-1)?.stage ?? null;
  if (plan === null || done === null || done >= plan.stages.length) return 1;
  return continuesWith(bout.reps, plan.stages[0]!, plan.stages[done]!) ? done + 1 : 1;
}
