import { KEYPOINT_COUNT, KEYPOINT_INDEX, type Keypoint, type Side } from '../pose/keypoints.js';
import { toDegrees } from './angles.js';
import type { Body } from './body.js';
import { HALF_WIDTH_ERRORS } from './interval.js';
import { median, quantileOf, robustStandardDeviation } from './robust.js';
import { lengthInTorsos } from './segments.js';
import { sliceBody } from './sliceBody.js';

/** Where the camera stands to the lifter. */
export interface View {
  /** The side of the lifter that the camera sees most squarely. */
  readonly facing: 'left' | 'right' | 'front' | 'back';
  /** 0° from a pure side view to 90° from a pure front or back view. */
  readonly degreesOffSide: number;
  /** How far the 95 % interval of `degreesOffSide` reaches, to its farther end. */
  readonly uncertaintyDegrees: number;
  /** How sure it is which way the lifter faces, 0 to 1. */
  readonly confidence: number;
  /** The lifter's side nearer to the camera; null from front or back. */
  readonly nearSide: Side | null;
  /**
   * Direction in which the lifter faces within the picture: -1 to the left, 1 to the right, 0 where it cannot be told
   * (front and back views).
   */
  readonly forward: -1 | 0 | 1;
  /** Whether the camera sees more of the chest than of the back; null in a side view. */
  readonly fromFront: boolean | null;
}

/**
 * Distances between the two shoulder points, hip points and ears over the torso length, seen squarely from front or
 * back, as the pose model places them on real photographs (narrower than the breadths of anthropometric tables).
 * Shoulders come closer when the arms go overhead.
 */
const FRONTAL_SHOULDERS = 0.66;
const FRONTAL_SHOULDERS_ARMS_UP = 0.52;
const FRONTAL_HIPS = 0.38;
const FRONTAL_EARS = 0.27;
/** How well those proportions hold from person to person and pose to pose. */
const PROPORTION_ERROR = 0.12;
/** Further off side than this it is a front or back view. */
export const FRONTAL_DEGREES = 58;
/** Nearer to the side than this, the limb behind the body is hidden, and the trunk is read along the near side. */
export const SIDE_VIEW_DEGREES = 20;
/** Width below which left and right of the picture say nothing about front or back, as a share of the frontal width. */
const LEAST_WIDTH_SHARE = 0.25;

/**
 * From here on the nose is clearly ahead of the ears, torso lengths. In the evaluation's films the model places it 0.17
 * to 0.25 ahead from the side and 0.10 to 0.16 from 45° off.
 */
const CLEAR_NOSE_TORSOS = 0.15;
/** From here on a knee is clearly bent, torso lengths ahead of the line from hip to ankle: at some 20° of flexion. */
const CLEAR_KNEE_BEND_TORSOS = 0.15;
/**
 * From here on the model is clearly surer of one side, difference over sum of its scores. It seldom is: in the
 * evaluation's films it lies at 0.02 to 0.07 from the side, so that scores mostly speak with a third of their weight.
 */
const CLEAR_SCORE_DIFFERENCE = 0.15;
/** Keeps the share finite where the model is sure of nothing. */
const LEAST_SCORES = 0.01;
/** Weights of the three cues, chosen so that any two in full outvote the third; the two knees share one. */
const NOSE_WEIGHT = 0.5;
const KNEE_WEIGHT = 0.25;
const SCORE_WEIGHT = 0.4;
/**
 * A middle vote of this much is sure where all frames agree: half of the weakest cue in full. Frames that disagree
 * ask for more, by this share of their spread. Both chosen by hand; they move the confidence, never the side.
 */
const SURE_VOTE = 0.2;
const SPREAD_DOUBT = 0.5;

/**
 * Estimates from where the camera sees the lifter between two times.
 *
 * How far off the side: from the signed distance between the shoulders and between the hips across the picture, over
 * the body's size. Which side: from where the nose lies to the ears and shoulders, which way the knees bend, and which
 * side's points the model is surer of.
 */
export function estimateView(body: Body, fromSeconds: number, toSeconds: number): View {
  const part = sliceBody(body, fromSeconds, toSeconds);
  const size = bodySizePixels(part);
  if (part.frames === 0 || size === 0) return UNKNOWN_VIEW;
  const shoulders = median(shoulderShares(part, size)) ?? 0;
  const hips = median(pairWidths(part, 'left-hip', 'right-hip', size * FRONTAL_HIPS)) ?? shoulders;
  const ears = median(pairWidths(part, 'left-ear', 'right-ear', size * FRONTAL_EARS)) ?? shoulders;
  // The head turns on its own: it only helps to settle the trunk's own two measures.
  const share = (2 * shoulders + 2 * hips + median([shoulders, hips, ears])!) / 5;
  const spread = Math.hypot(PROPORTION_ERROR * Math.abs(share), 0.06);
  const off = toDegrees(Math.asin(Math.min(1, Math.abs(share))));
  const lowest = toDegrees(Math.asin(Math.min(1, Math.max(0, Math.abs(share) - HALF_WIDTH_ERRORS * spread))));
  const highest = toDegrees(Math.asin(Math.min(1, Math.abs(share) + HALF_WIDTH_ERRORS * spread)));
  const vote = facingVote(part, size);
  const forward = vote > 0 ? 1 : vote < 0 ? -1 : 0;
  const fromFront = Math.abs(share) < LEAST_WIDTH_SHARE ? null : share > 0;
  return {
    ...facingOf(off, forward, share > 0),
    degreesOffSide: off,
    // Near 90°, where it ends, the interval reaches further down than up.
    uncertaintyDegrees: Math.max(highest - off, off - lowest),
    confidence: off > FRONTAL_DEGREES ? Math.min(1, Math.abs(share)) : Math.min(1, Math.abs(vote)),
    forward,
    fromFront,
  };
}

/** The same view, the angle to the side being known better from elsewhere; which way the lifter faces stays. */
export function turnedTo(view: View, degreesOffSide: number, uncertaintyDegrees: number): View {
  const facing = facingOf(degreesOffSide, view.forward, view.fromFront !== false);
  return { ...view, ...facing, degreesOffSide, uncertaintyDegrees };
}

function facingOf(
  degreesOffSide: number,
  forward: View['forward'],
  fromFront: boolean,
): Pick<View, 'facing' | 'nearSide'> {
  if (degreesOffSide > FRONTAL_DEGREES) return { facing: fromFront ? 'front' : 'back', nearSide: null };
  const nearSide: Side = forward === 1 ? 'right' : 'left';
  return { facing: nearSide, nearSide };
}

const UNKNOWN_VIEW: View = {
  facing: 'front',
  degreesOffSide: 90,
  uncertaintyDegrees: 90,
  confidence: 0,
  nearSide: null,
  forward: 0,
  fromFront: null,
};

/**
 * Torso length of the lifter were none of it foreshortened, pixels: the longest usual appearance of the torso and of
 * the legs and arms in torso lengths, since a trunk bent towards the camera looks short while a shank stands.
 */
export function bodySizePixels(body: Body): number {
  const torso = quantileOf(segmentLengths(body, 'torso'), 0.75) ?? 0;
  const limbs = [
    (quantileOf(segmentLengths(body, 'shank'), 0.75) ?? 0) / lengthInTorsos('shank'),
    (quantileOf(segmentLengths(body, 'thigh'), 0.75) ?? 0) / lengthInTorsos('thigh'),
    (quantileOf(segmentLengths(body, 'upperArm'), 0.75) ?? 0) / lengthInTorsos('upperArm'),
  ];
  // Limbs may read long for a short torso; they only speak where the torso is clearly foreshortened.
  return Math.max(torso, ...limbs.map((length) => 0.85 * length));
}

function segmentLengths(body: Body, segment: 'torso' | 'shank' | 'thigh' | 'upperArm'): number[] {
  const lengths: number[] = [];
  const pairs = {
    torso: ['shoulder', 'hip'],
    shank: ['knee', 'ankle'],
    thigh: ['hip', 'knee'],
    upperArm: ['shoulder', 'elbow'],
  } as const;
  const [from, to] = pairs[segment];
  for (let frame = 0; frame < body.frames; frame += 1) {
    for (const side of ['left', 'right'] as const) {
      const a = frame * KEYPOINT_COUNT + KEYPOINT_INDEX[`${side}-${from}`];
      const b = frame * KEYPOINT_COUNT + KEYPOINT_INDEX[`${side}-${to}`];
      if (body.seen[a] !== 1 || body.seen[b] !== 1) continue;
      lengths.push(Math.hypot(body.x[a]! - body.x[b]!, body.y[a]! - body.y[b]!));
    }
  }
  return lengths;
}

/** Signed width of the shoulders as a share of the frontal width, which depends on whether the arms are up. */
function shoulderShares(body: Body, size: number): number[] {
  const up = (frame: number) =>
    (['left', 'right'] as const).every((side) => {
      const start = frame * KEYPOINT_COUNT;
      return (
        body.y[start + KEYPOINT_INDEX[`${side}-elbow`]]! < body.y[start + KEYPOINT_INDEX[`${side}-shoulder`]]!
      );
    });
  return pairWidths(body, 'left-shoulder', 'right-shoulder', size, (frame, width) =>
    up(frame) ? width / FRONTAL_SHOULDERS_ARMS_UP : width / FRONTAL_SHOULDERS,
  );
}

/** Signed distance across the picture from the right point to the left one, as a share of the frontal width. */
function pairWidths(
  body: Body,
  left: Keypoint,
  right: Keypoint,
  unitPixels: number,
  scaled: (frame: number, width: number) => number = (_, width) => width,
): number[] {
  const widths: number[] = [];
  for (let frame = 0; frame < body.frames; frame += 1) {
    const a = frame * KEYPOINT_COUNT + KEYPOINT_INDEX[left];
    const b = frame * KEYPOINT_COUNT + KEYPOINT_INDEX[right];
    if (body.seen[a] === 1 && body.seen[b] === 1)
      widths.push(scaled(frame, (body.x[a]! - body.x[b]!) / unitPixels));
  }
  return widths;
}

/** Which way the lifter faces across the picture: positive to the right, negative to the left; 1 is sure. */
function facingVote(body: Body, size: number): number {
  const votes: number[] = [];
  for (let frame = 0; frame < body.frames; frame += 1) {
    const knee = (side: Side) => kneeVote(body, frame, size, side);
    votes.push(noseVote(body, frame, size) + knee('left') + knee('right') + nearSideVote(body, frame));
  }
  const middle = median(votes) ?? 0;
  const spread = robustStandardDeviation(votes) ?? 0;
  return clamp(middle / (SURE_VOTE + SPREAD_DOUBT * spread));
}

/** The nose points where the lifter faces. */
function noseVote(body: Body, frame: number, size: number): number {
  const at = (name: Keypoint) => frame * KEYPOINT_COUNT + KEYPOINT_INDEX[name];
  const seen = (name: Keypoint) => body.seen[at(name)] === 1;
  const ears = (['left-ear', 'right-ear'] as const).filter(seen);
  if (!seen('nose') || ears.length === 0) return 0;
  const ear = ears.reduce((sum, name) => sum + body.x[at(name)]!, 0) / ears.length;
  return clamp((body.x[at('nose')]! - ear) / (CLEAR_NOSE_TORSOS * size)) * NOSE_WEIGHT;
}

/** A knee bends forward. */
function kneeVote(body: Body, frame: number, size: number, side: Side): number {
  const at = (joint: 'hip' | 'knee' | 'ankle') => frame * KEYPOINT_COUNT + KEYPOINT_INDEX[`${side}-${joint}`];
  const leg = [at('hip'), at('knee'), at('ankle')] as const;
  if (!leg.every((point) => body.seen[point] === 1)) return 0;
  return clamp(kneeBendAcross(body, ...leg) / (CLEAR_KNEE_BEND_TORSOS * size)) * KNEE_WEIGHT;
}

/** The model is surer of the side near the camera; who shows the right one faces to the right of the picture. */
function nearSideVote(body: Body, frame: number): number {
  let [left, right] = [0, 0];
  for (const joint of ['ear', 'shoulder', 'elbow', 'hip', 'knee'] as const) {
    left += body.score[frame * KEYPOINT_COUNT + KEYPOINT_INDEX[`left-${joint}`]]!;
    right += body.score[frame * KEYPOINT_COUNT + KEYPOINT_INDEX[`right-${joint}`]]!;
  }
  const surer = (right - left) / Math.max(LEAST_SCORES, right + left);
  return clamp(surer / CLEAR_SCORE_DIFFERENCE) * SCORE_WEIGHT;
}

/** How far the knee lies in front of the line from hip to ankle, across the picture, pixels. */
function kneeBendAcross(body: Body, hip: number, knee: number, ankle: number): number {
  const dx = body.x[ankle]! - body.x[hip]!;
  const dy = body.y[ankle]! - body.y[hip]!;
  const length = Math.hypot(dx, dy);
  if (length === 0) return 0;
  const off = ((body.x[knee]! - body.x[hip]!) * dy - (body.y[knee]! - body.y[hip]!) * dx) / length;
  return off * (dy / length);
}

function clamp(value: number): number {
  return Math.max(-1, Math.min(1, value));
}
