import { KEYPOINT_COUNT } from '../../../core/pose/keypoints.js';
import type { PoseTrack } from '../../../core/pose/track.js';

/** Points the model was less sure of than this are not drawn. */
const LEAST_SCORE = 0.25;
/** Stands for "not seen". */
export const NOT_SEEN = 0xffff;
/** Positions are kept in this many steps across the larger side of the picture. */
export const POSITION_STEPS = 8192;
/** More frames than this are thinned: 3,600 frames are two minutes at 30 a second and 330 KB of text. */
const MOST_FRAMES = 3600;

/** A stick figure that moves, small enough to stand in a page. */
export interface PackedFigure {
  readonly width: number;
  readonly height: number;
  readonly frames: number;
  /** Base64 of little-endian words of 16 bits: for every frame the milliseconds since the frame before. */
  readonly times: string;
  /** Real time of the first frame, seconds. */
  readonly firstSeconds: number;
  /** Base64 of little-endian words of 16 bits: x and y of the seventeen points, frame after frame. */
  readonly points: string;
}

function base64(words: Uint16Array): string {
  const bytes = Buffer.alloc(words.length * 2);
  words.forEach((word, index) => {
    bytes.writeUInt16LE(word, index * 2);
  });
  return bytes.toString('base64');
}

/**
 * Packs a pose track for the page: positions to 1/8192 of the larger side, times to a millisecond, at most
 * 3,600 frames (evenly thinned). Times become real time.
 */
export function packFigure(track: PoseTrack, slowMotionFactor: number): PackedFigure {
  const every = Math.max(1, Math.ceil(track.seconds.length / MOST_FRAMES));
  const chosen = Array.from({ length: Math.ceil(track.seconds.length / every) }, (_, index) => index * every);
  const scale = (POSITION_STEPS - 1) / Math.max(track.width, track.height);
  const points = new Uint16Array(chosen.length * KEYPOINT_COUNT * 2).fill(NOT_SEEN);
  const times = new Uint16Array(chosen.length);
  const firstSeconds = (track.seconds[0] ?? 0) / slowMotionFactor;
  let reached = 0;
  chosen.forEach((frame, index) => {
    const at = Math.round((track.seconds[frame]! / slowMotionFactor - firstSeconds) * 1000);
    times[index] = Math.min(0xffff, at - reached);
    reached += times[index]!;
    for (let keypoint = 0; keypoint < KEYPOINT_COUNT; keypoint++) {
      const from = frame * KEYPOINT_COUNT + keypoint;
      if (track.score[from]! < LEAST_SCORE) continue;
      const to = (index * KEYPOINT_COUNT + keypoint) * 2;
      points[to] = Math.min(POSITION_STEPS, Math.max(0, Math.round(track.x[from]! * scale)));
      points[to + 1] = Math.min(POSITION_STEPS, Math.max(0, Math.round(track.y[from]! * scale)));
    }
  });
  return {
    width: track.width,
    height: track.height,
    frames: chosen.length,
    times: base64(times),
    firstSeconds,
    points: base64(points),
  };
}
