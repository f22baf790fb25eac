import type { FilmFacts } from '../../core/media/film.js';
import type { Body } from '../../core/motion/body.js';
import { jointSamples, LEAST_SEEN_SHARE, leavesTimes } from '../../core/motion/jointSamples.js';
import { estimateView } from '../../core/motion/view.js';
import { KEYPOINT_COUNT, KEYPOINT_INDEX } from '../../core/pose/keypoints.js';
import type { Exercise } from '../exercises/exercise.js';
import type { ViewedBout } from '../segmentation/strokes.js';
import type { FindingCode } from './findings.js';
import type { BoutReport } from './setReport.js';

/** A frame shows a lifter when its best points are surer than this; an empty picture stays under 0.11. */
const LIFTER_SCORE = 0.25;
const FEW_FRAMES_A_SECOND = 20;
const LOW_CONFIDENCE = 0.4;
const MANY_SWAPS = 0.02;

/** Why a film gave no answer. */
export function unusableReason(body: Body, exercise: Exercise, foundOtherSide: boolean): FindingCode {
  if (foundOtherSide) return 'other-side-only';
  if (shareOfFramesWithLifter(body) < 0.2) return 'no-lifter';
  const view = estimateView(body, body.seconds[0] ?? 0, body.seconds[body.frames - 1] ?? 0);
  const shares = (['left', 'right'] as const).map(
    (side) => jointSamples(body, exercise.drivingAngle, side, view).seenShare,
  );
  return Math.max(...shares) < LEAST_SEEN_SHARE ? 'joint-not-visible' : 'no-reps';
}

/** What is worth knowing about a film beside its numbers, weightiest first. */
export function filmFindings(
  body: Body,
  film: FilmFacts,
  bouts: readonly ViewedBout[],
  reports: readonly BoutReport[],
  exercise: Exercise,
): readonly FindingCode[] {
  const codes = new Set<FindingCode>();
  if (body.people?.lifterDoubtful === true) codes.add('lifter-doubtful');
  if (bouts.length > 0 && body.quality === 'quick') codes.add('quick-look');
  for (const { driving } of bouts) {
    const { reason } = driving;
    if (leavesTimes(reason)) codes.add(reason);
  }
  const span = body.frames < 2 ? 0 : body.seconds[body.frames - 1]! - body.seconds[0]!;
  if (bouts.length > 0 && film.frameRate * film.slowMotionFactor < FEW_FRAMES_A_SECOND && span > 0)
    codes.add('few-frames');
  if (bouts.length > 0 && confidence(body) < LOW_CONFIDENCE) codes.add('low-confidence');
  if (film.slowMotionFactor !== 1) codes.add('slow-motion');
  if (film.slowMotionDoubtful === true) codes.add('slow-motion-doubtful');
  if (bouts.length > 0 && exercise.visibility !== 'yes') codes.add('exercise-partly-visible');
  for (const bout of bouts) {
    if (bout.view.nearSide !== null && bout.view.degreesOffSide < 30 && bout.side === 'both') {
      codes.add(exercise.limbs === 'two-arms' ? 'far-arm-hidden' : 'far-leg-hidden');
    }
  }
  if (reports.some((bout) => bout.reps.some((rep) => !rep.complete))) codes.add('film-cuts-reps');
  if (
    reports.some(
      (bout) => bout.summary.baselineRangeDegrees === null && bout.reps.some((rep) => rep.range !== null),
    )
  ) {
    codes.add('too-few-reps-for-baseline');
  }
  if (reports.some((bout) => typeof bout.summary.baselineEarlierSets === 'number')) {
    codes.add('baseline-from-earlier-sets');
  }
  if (body.swappedShare > MANY_SWAPS) codes.add('labels-swapped');
  return [...codes];
}

function confidence(body: Body): number {
  let sum = 0;
  for (let i = 0; i < body.score.length; i++) sum += body.score[i]!;
  return body.score.length === 0 ? 0 : sum / body.score.length;
}

function shareOfFramesWithLifter(body: Body): number {
  let frames = 0;
  for (let frame = 0; frame < body.frames; frame++) {
    const start = frame * KEYPOINT_COUNT;
    const scores = Array.from(
      body.score.subarray(start + KEYPOINT_INDEX['left-shoulder'], start + KEYPOINT_COUNT),
    ).sort((a, b) => b - a);
    if (scores.slice(0, 6).reduce((sum, score) => sum + score, 0) / 6 > LIFTER_SCORE) frames++;
  }
  return body.frames === 0 ? 0 : frames / body.frames;
}
