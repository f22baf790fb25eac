import type { FilmFacts } from '../core/media/film.js';
import type { Side } from '../core/pose/keypoints.js';
import type { PoseTrack } from '../core/pose/track.js';
import type { Exercise } from './exercises/exercise.js';
import type { Plan } from './plan/plan.js';
import type { SetReport } from './report/setReport.js';

/** What the user asked to know about a film. */
export interface SetRequest {
  readonly exercise: Exercise;
  readonly exerciseChosenBy: 'user' | 'recognition';
  readonly plan: Plan | null;
  /** Which side's work to report; null reports whatever moves. */
  readonly side: Side | 'both' | null;
  /** True when the film shows a mirror image (a front camera's selfie, a mirror on the wall). */
  readonly mirrored: boolean;
  /** Median range in degrees of this lifter's earlier sets, used where a bout has under three complete reps. */
  readonly baselineRangeDegrees: number | null;
}

/** The driving angle over time, for pictures. Real seconds; degrees. */
export interface AngleCurve {
  readonly side: Side | 'both';
  readonly seconds: readonly number[];
  readonly degrees: readonly number[];
  /** Half width of the 95 % interval, degrees. */
  readonly uncertaintyDegrees: readonly number[];
}

export interface SetAnalysis {
  readonly report: SetReport;
  /** One curve a bout, covering the bout with a second to spare on both sides. */
  readonly curves: readonly AngleCurve[];
}

/**
 * Turns a pose track into the set report.
 *
 * @throws nothing: a film that cannot answer gives a report with `quality.usable: false` and the reason.
 */
export function analyzeSet(_track: PoseTrack, _film: FilmFacts, _request: SetRequest): SetAnalysis {
  throw new Error('not yet');
}
