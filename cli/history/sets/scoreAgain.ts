import { analyzeSet, type SetAnalysis } from '../../../analysis/analyzeSet.js';
import type { Exercise } from '../../../analysis/exercises/exercise.js';
import type { Plan } from '../../../analysis/plan/plan.js';
import type { EarlierRange } from '../../../analysis/scoring/earlierRange.js';
import { decodeTrack } from '../../../core/pose/trackFile.js';
import { PROGRAM_VERSION } from '../../version.js';
import type { SavedTrack, SetDetails } from './savedSet.js';

/** What may be different the second time. */
export interface NewQuestion {
  readonly exercise: Exercise;
  readonly plan: Plan | null;
  readonly loads: Pick<SetDetails, 'load' | 'stageLoads'>;
  /** The lifter's earlier sets, for bouts too short to have a baseline of their own. */
  readonly earlierRanges: readonly EarlierRange[];
  /** Whether the user named the exercise just now, which confirms one that was recognised. */
  readonly named?: boolean;
}

/** Works a set out anew from its stored track, without the film. */
export function analyzeAgain(track: SavedTrack, question: NewQuestion): SetAnalysis {
  const { exercise, plan, loads, earlierRanges, named = false } = question;
  return analyzeSet(decodeTrack(track.bytes), track.film, {
    ...track.request,
    exercise,
    exerciseChosenBy:
      named || exercise.id !== track.request.exercise.id ? 'user' : track.request.exerciseChosenBy,
    plan,
    load: loads.load,
    stageLoads: loads.stageLoads,
    earlierRanges,
    programVersion: PROGRAM_VERSION,
  });
}
