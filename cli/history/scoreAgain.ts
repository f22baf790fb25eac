import { analyzeSet, type SetAnalysis } from '../../analysis/analyzeSet.js';
import type { Exercise } from '../../analysis/exercises/exercise.js';
import type { Plan } from '../../analysis/plan/plan.js';
import type { EarlierRange } from '../../analysis/scoring/earlierRange.js';
import { decodeTrack } from '../../core/pose/trackFile.js';
import { PROGRAM_VERSION } from '../version.js';
import type { SavedTrack, SetDetails } from './savedSet.js';

/** What may be different the second time. */
export interface NewQuestion {
  readonly exercise: Exercise;
  readonly plan: Plan | null;
  readonly loads: Pick<SetDetails, 'load' | 'stageLoads'>;
  /** The lifter's earlier sets, for bouts too short to have a baseline of their own. */
  readonly earlierRanges: readonly EarlierRange[];
}

/** Works a set out anew from its stored track, without the film. */
export function analyzeAgain(track: SavedTrack, question: NewQuestion): SetAnalysis {
  const { exercise, plan, loads, earlierRanges } = question;
  return analyzeSet(decodeTrack(track.bytes), track.film, {
    ...track.request,
    exercise,
    exerciseChosenBy: exercise.id === track.request.exercise.id ? track.request.exerciseChosenBy : 'user',
    plan,
    load: loads.load,
    stageLoads: loads.stageLoads,
    earlierRanges,
    programVersion: PROGRAM_VERSION,
  });
}
