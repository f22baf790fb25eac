import { mean } from 'simple-statistics';
import { KEYPOINT_COUNT, KEYPOINT_INDEX } from '../pose/keypoints.js';
import type { PoseTrack } from '../pose/track.js';
import { median, NORMAL_CONSISTENCY, quantileOf } from './robust.js';
import { LIMB_SEGMENTS, torsoLengthPixels } from './segments.js';

/** Below this confidence a keypoint is a guess (the model's own crop rule uses the same figure). */
const LEAST_SCORE = 0.2;
/** A keypoint this far outside the picture was not seen, as a share of its size. */
const MARGIN_OUTSIDE = 0.01;
/** A limb segment longer than this many times its longest usual appearance has its far end elsewhere. */
const GREATEST_STRETCH = 1.3;
/** Half width of the window a keypoint is held against, seconds, and how far it may leave its median, in torsos. */
const WINDOW_SECONDS = 0.3;
const GREATEST_JUMP_TORSOS = 0.2;
/** A jump must also exceed this many times the spread within the window: quick movement is no jump. */
const GREATEST_JUMP_SPREADS = 4;

/** Who is covered for a moment scores less than this share of what is usual within so many seconds before and after. */
const COVERED_SHARE = 0.75;
const USUAL_WITHIN_SECONDS = 1;

/**
 * Marks the keypoints that were really seen: confident, inside the picture, in a frame in which nobody passes before the
 * lifter, on a limb of possible length, and not on another limb for a few frames only.
 */
export function markSeen(track: PoseTrack): Uint8Array {
  const seen = Uint8Array.from(track.score, (score, at) =>
    score >= LEAST_SCORE && insidePicture(track, at) ? 1 : 0,
  );
  const torso = torsoLengthPixels(track, seen);
  if (torso === 0) return seen;
  unmarkCovered(track, seen);
  unmarkStretchedLimbs(track, seen);
  unmarkJumps(track, seen, torso);
  return seen;
}

function insidePicture(track: PoseTrack, at: number): boolean {
  const [x, y] = [track.x[at]!, track.y[at]!];
  const marginX = MARGIN_OUTSIDE * track.width;
  const marginY = MARGIN_OUTSIDE * track.height;
  return x >= -marginX && x <= track.width + marginX && y >= -marginY && y <= track.height + marginY;
}

/** Somebody who passes takes the whole pose for a few frames, some of it with confidence. */
function unmarkCovered({ seconds, score }: PoseTrack, seen: Uint8Array): void {
  const keypointsOf = (frame: number) => [frame * KEYPOINT_COUNT, (frame + 1) * KEYPOINT_COUNT] as const;
  const scores = Array.from(seconds, (_, frame) => mean(Array.from(score.subarray(...keypointsOf(frame)))));
  let [from, to] = [0, 0];
  seconds.forEach((at, frame) => {
    while (seconds[from]! < at - USUAL_WITHIN_SECONDS) from++;
    while (to < seconds.length && seconds[to]! <= at + USUAL_WITHIN_SECONDS) to++;
    const usual = median(scores.slice(from, to))!;
    if (scores[frame]! < COVERED_SHARE * usual) seen.fill(0, ...keypointsOf(frame));
  });
}

function unmarkStretchedLimbs(track: PoseTrack, seen: Uint8Array): void {
  const frames = track.seconds.length;
  for (const { from, to } of LIMB_SEGMENTS) {
    for (const side of ['left', 'right'] as const) {
      const near = KEYPOINT_INDEX[`${side}-${from}`];
      const far = KEYPOINT_INDEX[`${side}-${to}`];
      const lengths = new Float64Array(frames).fill(Number.NaN);
      for (let frame = 0; frame < frames; frame += 1) {
        const [a, b] = [frame * KEYPOINT_COUNT + near, frame * KEYPOINT_COUNT + far];
        if (seen[a] === 1 && seen[b] === 1) {
          lengths[frame] = Math.hypot(track.x[b]! - track.x[a]!, track.y[b]! - track.y[a]!);
        }
      }
      const usual = quantileOf(
        [...lengths].filter((length) => !Number.isNaN(length)),
        0.8,
      );
      if (usual === null) continue;
      lengths.forEach((length, frame) => {
        if (length > GREATEST_STRETCH * usual) seen[frame * KEYPOINT_COUNT + far] = 0;
      });
    }
  }
}

/** Hampel's rule on each keypoint's path: a point far from the median of its window, and not part of quick movement. */
function unmarkJumps(track: PoseTrack, seen: Uint8Array, torso: number): void {
  for (let keypoint = 0; keypoint < KEYPOINT_COUNT; keypoint += 1) {
    const frames: number[] = [];
    for (let frame = 0; frame < track.seconds.length; frame += 1) {
      if (seen[frame * KEYPOINT_COUNT + keypoint] === 1) frames.push(frame);
    }
    let [from, to] = [0, 0];
    const jumps: number[] = [];
    for (const frame of frames) {
      const time = track.seconds[frame]!;
      while (track.seconds[frames[from]!]! < time - WINDOW_SECONDS) from += 1;
      while (to < frames.length && track.seconds[frames[to]!]! <= time + WINDOW_SECONDS) to += 1;
      if (to - from < 5) continue;
      const near = frames.slice(from, to).map((other) => other * KEYPOINT_COUNT + keypoint);
      const x = median(near.map((at) => track.x[at]!))!;
      const y = median(near.map((at) => track.y[at]!))!;
      const away = (at: number) => Math.hypot(track.x[at]! - x, track.y[at]! - y);
      const distance = away(frame * KEYPOINT_COUNT + keypoint);
      if (distance <= GREATEST_JUMP_TORSOS * torso) continue;
      const spread = NORMAL_CONSISTENCY * median(near.map(away))!;
      if (distance > GREATEST_JUMP_SPREADS * spread) jumps.push(frame);
    }
    for (const frame of jumps) seen[frame * KEYPOINT_COUNT + keypoint] = 0;
  }
}
