import { KEYPOINT_COUNT, KEYPOINT_INDEX } from '../pose/keypoints.js';
import type { PoseTrack } from '../pose/track.js';
import { quantileOf } from './robust.js';
import { LIMB_SEGMENTS, torsoLengthPixels } from './segments.js';

/** The joints whose labels can flip, each with its own state: bit `j` of a state says that joint `j` is exchanged. */
const JOINTS = ['shoulder', 'elbow', 'wrist', 'hip', 'knee', 'ankle'] as const;
type Joint = (typeof JOINTS)[number];
const LEFT = JOINTS.map((joint) => KEYPOINT_INDEX[`left-${joint}`]);
const RIGHT = JOINTS.map((joint) => KEYPOINT_INDEX[`right-${joint}`]);
const STATES = 1 << JOINTS.length;
/** Every state reached from itself. */
const UNCHANGED = Uint8Array.from({ length: STATES }, (_, state) => state);

/** A keypoint below this confidence says nothing about where its joint went. */
const LEAST_SCORE = 0.15;
/** A pair of joints closer than this, as a share of the torso, may be one joint seen twice. */
const LEAST_APART_TORSOS = 0.05;
/** Usual movement of a joint between frames, as a share of the torso: a part for noise and a part a second. */
const STILL_TORSOS = 0.05;
const TORSOS_A_SECOND = 1;
/** Cost of any larger displacement (four standard deviations squared): beyond it, further says nothing more. */
const GREATEST_DISPLACEMENT_COST = 16;
/** Cost of each flip, so that noise on joints that lie over each other is not read as flips. */
const FLIP_COST = 2;
/** The model's labels are mostly right: cost a second of holding one joint otherwise than most of the body. */
const ODD_JOINT_COST_A_SECOND = 2;
/**
 * Cost a second of a body turned round as a whole, less than of its joints one by one, so that names do not change
 * half-way in a film whose front or back the model cannot tell. It takes a back for a front at times, in some films
 * mostly, and hardly ever a front for a back (DEVELOPERS, "Keeping leg and trunk whole"): what it shows as a back is
 * believed the more.
 */
const TURNED_FRONT_COST_A_SECOND = 1;
const TURNED_BACK_COST_A_SECOND = 4;
const TURNED_SIDE_COST_A_SECOND = 2;
/**
 * Cost a second of neighbours of which one is exchanged and the other is not, while the hips lie apart: seen obliquely, the model
 * takes a leg, or the whole body, for the other side's. From the side, where the hips hide one another, it does mix
 * legs, and keeping them whole would draw one leg's shank on the other.
 */
const TORN_COST_A_SECOND = 8;
const SELDOM_TORN: readonly (readonly [Joint, Joint])[] = [
  ['shoulder', 'hip'],
  ['hip', 'knee'],
  ['knee', 'ankle'],
];
const HIPS_APART_TORSOS = 0.15;
const HIP = JOINTS.indexOf('hip');
/** Shoulders closer than this say nothing of front or back. */
const SHOULDERS_APART_TORSOS = 0.1;
const SHOULDER = JOINTS.indexOf('shoulder');
/** Cost a second of a limb segment stretched beyond its longest by 15 %, growing with the square up to a limit. */
const STRETCHED_COST_A_SECOND = 10;
const STRETCHED_SHARE = 0.15;
const GREATEST_STRETCH_COST = 4;

const EXCHANGED = Uint8Array.from(
  UNCHANGED,
  (state) => JOINTS.filter((joint) => isExchanged(state, joint)).length,
);
/** How many joints each state holds otherwise than most of the body. */
const ODD = EXCHANGED.map((exchanged) => Math.min(exchanged, JOINTS.length - exchanged));
/** Whether each state turns the body round: 0 no, 1 yes, half where half of the joints are exchanged. */
const TURNED = Float64Array.from(
  EXCHANGED,
  (exchanged) => (1 + Math.sign(exchanged - JOINTS.length / 2)) / 2,
);
/** How many neighbours that seldom part each state tears. */
const TORN = Uint8Array.from(
  UNCHANGED,
  (state) =>
    SELDOM_TORN.filter(([one, other]) => isExchanged(state, one) !== isExchanged(state, other)).length,
);

function isExchanged(state: number, joint: Joint): boolean {
  return ((state >> JOINTS.indexOf(joint)) & 1) === 1;
}

export interface RepairedTrack {
  readonly track: PoseTrack;
  /** Share of left-right pairs that were exchanged back, 0 to 1. */
  readonly swappedShare: number;
}

/**
 * Exchanges left and right where the model's labels flipped, joint by joint.
 *
 * The cheapest sequence of exchanges over the whole track (Viterbi): joints should move little between frames, limb
 * segments should not be longer than they ever are, legs and trunk seen obliquely stay whole, a back is taken for a
 * front rather than the reverse, and labels should be kept. Faces are left as they are.
 */
export function repairSwaps(track: PoseTrack): RepairedTrack {
  const states = cheapestStates(track);
  const x = Float32Array.from(track.x);
  const y = Float32Array.from(track.y);
  const score = Float32Array.from(track.score);
  let exchanged = 0;
  states.forEach((state, frame) => {
    for (let joint = 0; joint < JOINTS.length; joint += 1) {
      if ((state & (1 << joint)) === 0) continue;
      exchanged += 1;
      const left = frame * KEYPOINT_COUNT + LEFT[joint]!;
      const right = frame * KEYPOINT_COUNT + RIGHT[joint]!;
      for (const values of [x, y, score]) [values[left], values[right]] = [values[right]!, values[left]!];
    }
  });
  const pairs = states.length * JOINTS.length;
  return { track: { ...track, x, y, score }, swappedShare: pairs === 0 ? 0 : exchanged / pairs };
}

function cheapestStates(track: PoseTrack): Uint8Array {
  const frames = track.seconds.length;
  const states = new Uint8Array(frames);
  const torso = torsoLengthPixels(track, confident(track));
  if (frames === 0 || torso === 0) return states;
  const longest = longestSegments(track);
  const origins = new Uint8Array(frames * STATES);
  const lastGood = new Int32Array(JOINTS.length).fill(-1);
  const cost = new Float64Array(STATES);
  for (let frame = 0; frame < frames; frame += 1) {
    const origin = UNCHANGED.slice();
    if (frame > 0) {
      for (let joint = 0; joint < JOINTS.length; joint += 1) {
        const { kept, crossed } = displacementCosts(track, lastGood[joint]!, frame, joint, torso);
        relax(cost, origin, 1 << joint, kept, crossed);
      }
    }
    origins.set(origin, frame * STATES);
    addFrameCosts(cost, track, frame, torso, longest);
    for (let joint = 0; joint < JOINTS.length; joint += 1) {
      if (pairTells(track, frame, joint, torso)) lastGood[joint] = frame;
    }
  }
  let best = cost.indexOf(Math.min(...cost));
  for (let frame = frames - 1; frame >= 0; frame -= 1) {
    states[frame] = best;
    best = origins[frame * STATES + best]!;
  }
  return states;
}

/** One joint's part of the step from frame to frame: each state is reached from itself or from the one with the joint flipped. */
function relax(cost: Float64Array, origin: Uint8Array, bit: number, kept: number, crossed: number): void {
  for (let state = 0; state < STATES; state += 1) {
    if ((state & bit) !== 0) continue;
    const other = state | bit;
    const a = cost[state]!;
    const b = cost[other]!;
    const fromA = origin[state]!;
    const fromB = origin[other]!;
    const stays = a + kept <= b + crossed;
    cost[state] = stays ? a + kept : b + crossed;
    origin[state] = stays ? fromA : fromB;
    const otherStays = b + kept <= a + crossed;
    cost[other] = otherStays ? b + kept : a + crossed;
    origin[other] = otherStays ? fromB : fromA;
  }
}

/** What it costs that a joint's labels are used as in the frame before (`kept`), or the other way round (`crossed`). */
function displacementCosts(
  track: PoseTrack,
  before: number,
  frame: number,
  joint: number,
  torso: number,
): { kept: number; crossed: number } {
  if (before < 0 || !pairTells(track, frame, joint, torso)) return { kept: 0, crossed: FLIP_COST };
  const elapsed = track.seconds[frame]! - track.seconds[before]!;
  const usual = torso * (STILL_TORSOS + TORSOS_A_SECOND * elapsed);
  const cost = (from: number, to: number) => {
    const dx = track.x[frame * KEYPOINT_COUNT + to]! - track.x[before * KEYPOINT_COUNT + from]!;
    const dy = track.y[frame * KEYPOINT_COUNT + to]! - track.y[before * KEYPOINT_COUNT + from]!;
    return Math.min(GREATEST_DISPLACEMENT_COST, (dx * dx + dy * dy) / (usual * usual));
  };
  const [left, right] = [LEFT[joint]!, RIGHT[joint]!];
  return {
    kept: cost(left, left) + cost(right, right),
    crossed: FLIP_COST + cost(left, right) + cost(right, left),
  };
}

/** What it costs in one frame, added to each state, that labels are exchanged and segments stretched. */
function addFrameCosts(
  cost: Float64Array,
  track: PoseTrack,
  frame: number,
  torso: number,
  longest: readonly number[],
): void {
  const previous = frame === 0 ? track.seconds[0]! : track.seconds[frame - 1]!;
  const elapsed = Math.min(0.2, Math.max(0.01, track.seconds[frame]! - previous));
  const stretch = LIMB_SEGMENTS.map(({ from, to }, segment) => ({
    fromBit: 1 << JOINTS.indexOf(from),
    toBit: 1 << JOINTS.indexOf(to),
    straight: stretchCost(track, frame, from, to, false, longest[segment]!),
    crossed: stretchCost(track, frame, from, to, true, longest[segment]!),
  }));
  const hipsApart =
    pairIsGood(track, frame, HIP) &&
    distance(track, frame, LEFT[HIP]!, RIGHT[HIP]!) > HIPS_APART_TORSOS * torso;
  const tornCost = hipsApart ? TORN_COST_A_SECOND : 0;
  const turnedCost = turnedCostASecond(track, frame, torso);
  for (let state = 0; state < STATES; state += 1) {
    let aSecond =
      ODD_JOINT_COST_A_SECOND * ODD[state]! + turnedCost * TURNED[state]! + tornCost * TORN[state]!;
    for (const { fromBit, toBit, straight, crossed } of stretch) {
      const differ = ((state & fromBit) !== 0) !== ((state & toBit) !== 0);
      aSecond += STRETCHED_COST_A_SECOND * (differ ? crossed : straight);
    }
    cost[state]! += elapsed * aSecond;
  }
}

/** What turning the body round costs, by what the model takes it for: seen from the front, its left shoulder is on the right. */
function turnedCostASecond(track: PoseTrack, frame: number, torso: number): number {
  if (!pairIsGood(track, frame, SHOULDER)) return TURNED_SIDE_COST_A_SECOND;
  const start = frame * KEYPOINT_COUNT;
  const width = track.x[start + LEFT[SHOULDER]!]! - track.x[start + RIGHT[SHOULDER]!]!;
  if (Math.abs(width) < SHOULDERS_APART_TORSOS * torso) return TURNED_SIDE_COST_A_SECOND;
  return width > 0 ? TURNED_FRONT_COST_A_SECOND : TURNED_BACK_COST_A_SECOND;
}

/** Cost of both sides' segments between two joints when the labels at its ends agree, or when one end is crossed. */
function stretchCost(
  track: PoseTrack,
  frame: number,
  from: Joint,
  to: Joint,
  crossed: boolean,
  longest: number,
): number {
  if (longest === 0) return 0;
  const fromJoint = JOINTS.indexOf(from);
  const toJoint = JOINTS.indexOf(to);
  if (!pairIsGood(track, frame, fromJoint) || !pairIsGood(track, frame, toJoint)) return 0;
  const ends = crossed ? [RIGHT[toJoint]!, LEFT[toJoint]!] : [LEFT[toJoint]!, RIGHT[toJoint]!];
  const excess = (a: number, b: number) =>
    Math.max(0, distance(track, frame, a, b) / longest - 1) / STRETCHED_SHARE;
  return (
    Math.min(GREATEST_STRETCH_COST, excess(LEFT[fromJoint]!, ends[0]!) ** 2) +
    Math.min(GREATEST_STRETCH_COST, excess(RIGHT[fromJoint]!, ends[1]!) ** 2)
  );
}

/** Each limb segment's longest usual appearance as labelled, both sides together, pixels. */
function longestSegments(track: PoseTrack): readonly number[] {
  return LIMB_SEGMENTS.map(({ from, to }) => {
    const [near, far] = [JOINTS.indexOf(from), JOINTS.indexOf(to)];
    const lengths: number[] = [];
    for (let frame = 0; frame < track.seconds.length; frame += 1) {
      if (!pairIsGood(track, frame, near) || !pairIsGood(track, frame, far)) continue;
      for (const points of [LEFT, RIGHT]) lengths.push(distance(track, frame, points[near]!, points[far]!));
    }
    return quantileOf(lengths, 0.9) ?? 0;
  });
}

function distance(track: PoseTrack, frame: number, a: number, b: number): number {
  const [from, to] = [frame * KEYPOINT_COUNT + a, frame * KEYPOINT_COUNT + b];
  return Math.sqrt((track.x[to]! - track.x[from]!) ** 2 + (track.y[to]! - track.y[from]!) ** 2);
}

/** Whether both joints of a pair are seen, and apart: lying over each other they don't say which is which. */
function pairTells(track: PoseTrack, frame: number, joint: number, torso: number): boolean {
  const apart = distance(track, frame, LEFT[joint]!, RIGHT[joint]!);
  return pairIsGood(track, frame, joint) && apart > LEAST_APART_TORSOS * torso;
}

function pairIsGood(track: PoseTrack, frame: number, joint: number): boolean {
  const start = frame * KEYPOINT_COUNT;
  return (
    track.score[start + LEFT[joint]!]! >= LEAST_SCORE && track.score[start + RIGHT[joint]!]! >= LEAST_SCORE
  );
}

function confident(track: PoseTrack): Uint8Array {
  return Uint8Array.from(track.score, (score) => (score >= LEAST_SCORE ? 1 : 0));
}
