import type { FilmFacts } from '../core/media/film.js';
import { type Body, readBody } from '../core/motion/body.js';
import { HALF_WIDTH_ERRORS } from '../core/motion/interval.js';
import { trunkLean } from '../core/motion/jointSamples.js';
import { inRealTime, unmirrored } from '../core/motion/realTime.js';
import { between } from '../core/motion/smoothing.js';
import { knotSeconds, valueAt } from '../core/motion/speedSpline.js';
import { KEYPOINT_COUNT, KEYPOINT_INDEX, type Side } from '../core/pose/keypoints.js';
import type { PoseTrack } from '../core/pose/track.js';
import type { Exercise } from './exercises/exercise.js';
import type { Load } from './plan/load.js';
import type { Plan } from './plan/plan.js';
import { UNCONFIRMED_ID } from './recognition/provisional.js';
import { CAUTIONS, STILLNESS_IN_WORDS } from './report/cautions.js';
import { filmFindings, unusableReason } from './report/filmQuality.js';
import { finding } from './report/findings.js';
import { headline } from './report/headline.js';
import { setFindings } from './report/setFindings.js';
import type { SetReport } from './report/setReport.js';
import { SET_SCHEMA_ID } from './report/setSchemaId.js';
import type { EarlierRange } from './scoring/earlierRange.js';
import { scoreSet } from './scoring/scoreSet.js';
import type { Tolerance } from './scoring/tempoVerdict.js';
import type { MeasuredRep } from './segmentation/bout.js';
import { eachSide } from './segmentation/eachSide.js';
import { withSecondRanges } from './segmentation/secondRange.js';
import { findBouts, type ViewedBout } from './segmentation/strokes.js';

/** What the user asked to know about a film. */
export interface SetRequest {
  readonly exercise: Exercise;
  readonly exerciseChosenBy: 'user' | 'recognition';
  readonly plan: Plan | null;
  /** Which side's work to report; null reports whatever moves. */
  readonly side: Side | 'both' | null;
  /** True when the film shows a mirror image (a front camera's selfie, a mirror on the wall). */
  readonly mirrored: boolean;
  /** This lifter's earlier sets in order of recording, used where a bout has under three complete reps. */
  readonly earlierRanges?: readonly EarlierRange[];
  readonly tolerance?: Tolerance;
  readonly load?: SetReport['load'];
  /** One load a planned stage, where they differ. */
  readonly stageLoads?: readonly Load[] | null;
  readonly programVersion?: string;
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
export function analyzeSet(track: PoseTrack, film: FilmFacts, request: SetRequest): SetAnalysis {
  const real = inRealTime(request.mirrored ? unmirrored(track) : track, film.slowMotionFactor);
  const body = readBody(real);
  const { exercise, plan } = request;
  const found =
    body.frames < 2
      ? []
      : findBouts(body, {
          exercise,
          film: { startSeconds: body.seconds[0]!, endSeconds: body.seconds[body.frames - 1]! },
          plannedStartHoldSeconds: plannedStartHold(exercise, plan),
        });
  const wanted = found.filter((bout) => isWanted(bout, request.side));
  const measured = wanted.map((bout) => ({
    ...bout,
    reps: withSecondRanges(bout, body, exercise).map((rep) => withTrunkSwing(rep, body, bout)),
    eachSide: eachSide(bout, body, exercise),
  }));
  const scored = scoreSet(measured, {
    plan,
    earlierRanges: request.earlierRanges ?? [],
    words: exercise.words,
    ...(request.tolerance === undefined ? {} : { tolerance: request.tolerance }),
  });
  const facts = {
    exercise,
    framesPerSecond: framesPerSecond(body),
    degreesOffSide: wanted[0]?.view.degreesOffSide ?? 0,
    slowMotionFactor: film.slowMotionFactor,
  };
  const usable = scored.bouts.length > 0;
  const reason = usable ? null : finding(unusableReason(body, exercise, found.length > 0), facts);
  const notes = [
    ...filmFindings(body, film, wanted, scored.bouts, exercise),
    ...setFindings(scored.bouts, plan),
  ].map((code) => finding(code, facts));
  const report: SetReport = {
    schema: SET_SCHEMA_ID,
    film: filmOf(film, track, request),
    pose: { model: track.model, quality: track.quality, meanConfidence: meanConfidence(track) },
    exercise: exerciseOf(request),
    plan: plan === null ? null : structuredClone(plan as SetReport['plan']),
    bouts: [...scored.bouts],
    rests: [...scored.rests],
    symmetry: scored.symmetry,
    quality: { usable, findings: reason === null ? notes : [reason, ...notes] },
    headline: reason === null ? headline(scored.bouts, exercise, plan) : reason.message,
    method: {
      programVersion: request.programVersion ?? 'unknown',
      stillness: STILLNESS_IN_WORDS,
      cautions: [...CAUTIONS],
    },
    load: request.load ?? null,
    stageLoads: request.stageLoads == null ? null : [...request.stageLoads],
  };
  return { report, curves: wanted.map(curveOf) };
}

function filmOf(film: FilmFacts, track: PoseTrack, { mirrored }: SetRequest): SetReport['film'] {
  return {
    file: film.file,
    recordedAt: film.recordedAt,
    durationSeconds: film.durationSeconds / film.slowMotionFactor,
    width: film.width,
    height: film.height,
    frameRate: film.frameRate,
    variableFrameRate: film.variableFrameRate,
    slowMotionFactor: film.slowMotionFactor,
    rotationDegrees: film.rotationDegrees,
    mirrored,
    framesInFilm: track.framesInFilm,
    framesAnalyzed: track.seconds.length,
  };
}

/** An exercise that nobody named says so wherever its name is shown. */
function exerciseOf({ exercise, exerciseChosenBy }: SetRequest): SetReport['exercise'] {
  const { id, name, drivingAngle } = exercise;
  const bySight = exerciseChosenBy === 'recognition' && id !== UNCONFIRMED_ID;
  return { id, name: bySight ? `${name} (recognised)` : name, drivingAngle, chosenBy: exerciseChosenBy };
}

/** Mean rate of the analyzed frames, real time; 0 for fewer than two. */
function framesPerSecond({ frames, seconds }: Body): number {
  return frames < 2 ? 0 : (frames - 1) / (seconds[frames - 1]! - seconds[0]!);
}

function isWanted(bout: ViewedBout, side: SetRequest['side']): boolean {
  return side === null || side === 'both' || bout.side === 'both' || bout.side === side;
}

function plannedStartHold(exercise: Exercise, plan: Plan | null): number {
  const holds = (plan?.stages ?? []).map((stage) =>
    exercise.defaultStart === 'stretched' ? stage.tempo?.stretchedHold : stage.tempo?.contractedHold,
  );
  return Math.max(0, ...holds.filter((hold) => typeof hold === 'number'));
}

/** Greatest change of the trunk's lean during the lift, from a robust spread so that single frames do not count. */
function withTrunkSwing(rep: MeasuredRep, body: Body, bout: ViewedBout): MeasuredRep {
  const lift = rep.phases.find((phase) => phase.kind === 'concentric');
  if (lift === undefined) return rep;
  const lean = Array.from(
    between(trunkLean(body, bout.view), lift.start.seconds, lift.end.seconds).values,
  ).sort((a, b) => a - b);
  if (lean.length < 5) return { ...rep, trunkSwingDegrees: null };
  const at = (share: number) => lean[Math.round(share * (lean.length - 1))]!;
  return { ...rep, trunkSwingDegrees: at(0.95) - at(0.05) };
}

/** The keypoints before the shoulders are those of the face, which say nothing of a lift. */
const FIRST_BODY_KEYPOINT = KEYPOINT_INDEX['left-shoulder'];

/** Mean confidence over the points of arms, trunk and legs in frames that show the lifter, 0 to 1. */
function meanConfidence(track: PoseTrack): number {
  let sum = 0;
  let count = 0;
  for (let start = 0; start < track.score.length; start += KEYPOINT_COUNT) {
    for (let keypoint = FIRST_BODY_KEYPOINT; keypoint < KEYPOINT_COUNT; keypoint++) {
      sum += track.score[start + keypoint]!;
      count++;
    }
  }
  return count === 0 ? 0 : Math.min(1, Math.max(0, sum / count));
}

function curveOf(bout: ViewedBout): AngleCurve {
  const seconds: number[] = [];
  const degrees: number[] = [];
  const uncertaintyDegrees: number[] = [];
  for (const { spline, standardErrors } of bout.curves) {
    for (let knot = 0; knot <= spline.cells; knot++) {
      const at = knotSeconds(spline, knot);
      if (at < bout.start - 1 || at > bout.end + 1) continue;
      seconds.push(at);
      degrees.push(bout.degreesOf(valueAt(spline, at)));
      uncertaintyDegrees.push(HALF_WIDTH_ERRORS * standardErrors.values[knot]!);
    }
  }
  return { side: bout.side, seconds, degrees, uncertaintyDegrees };
}
