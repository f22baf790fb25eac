import { gunzipSync, gzipSync } from 'node:zlib';
import { z } from 'zod';
import { KEYPOINT_COUNT } from './keypoints.js';
import type { PoseTrack } from './track.js';

/**
 * The file form of a pose track, version 1: one gzip stream (RFC 1952, whose checksum finds damage) of
 *
 * 1. the length of the header in bytes, unsigned 32-bit, little-endian;
 * 2. the header, UTF-8 JSON: `format` "tempofilm.pose-track", `version` 1, `frames`, and the track's `model`,
 *    `quality`, `width`, `height`, `framesInFilm` and `people`;
 * 3. the times, seconds, 64-bit floating point;
 * 4. x, then y, in units of 1/64 pixel, then the scores in units of 1/4096: signed 32-bit integers, for each
 *    keypoint its value in the first frame and then the difference from frame to frame.
 *
 * Parts 3 and 4 are stored byte plane by byte plane (all lowest bytes first), which compresses to about 100 bytes
 * a frame.
 */
const FORMAT = 'tempofilm.pose-track';
const VERSION = 1;
const POSITION_STEPS = 64;
const SCORE_STEPS = 4096;

const headerSchema = z.strictObject({
  format: z.literal(FORMAT),
  version: z.literal(VERSION),
  frames: z.int().nonnegative(),
  model: z.enum(['movenet-thunder', 'movenet-lightning']),
  quality: z.enum(['quick', 'standard', 'full']),
  width: z.int().positive(),
  height: z.int().positive(),
  framesInFilm: z.int().nonnegative(),
  people: z.strictObject({ medianCount: z.number(), lifterDoubtful: z.boolean() }).nullable(),
});

/** Rounds a track to what its file form keeps, so that a track read back equals the one that was written. */
export function roundTrack(track: PoseTrack): PoseTrack {
  return {
    ...track,
    x: rounded(track.x, POSITION_STEPS),
    y: rounded(track.y, POSITION_STEPS),
    score: rounded(track.score, SCORE_STEPS),
  };
}

/** The file form of a track. */
export function encodeTrack(track: PoseTrack): Buffer {
  const { seconds, x, y, score, model, quality, width, height, framesInFilm, people } = track;
  const header = Buffer.from(
    JSON.stringify({
      format: FORMAT,
      version: VERSION,
      frames: seconds.length,
      ...{ model, quality, width, height, framesInFilm, people },
    }),
  );
  const length = Buffer.alloc(4);
  length.writeUInt32LE(header.length);
  const times = Buffer.alloc(seconds.length * 8);
  seconds.forEach((value, frame) => {
    times.writeDoubleLE(value, frame * 8);
  });
  return gzipSync(
    Buffer.concat([
      length,
      header,
      toPlanes(times, 8),
      ...[differences(x, POSITION_STEPS), differences(y, POSITION_STEPS), differences(score, SCORE_STEPS)],
    ]),
  );
}

/** Reads the file form of a track. @throws Error where the file is damaged or of another version. */
export function decodeTrack(file: Uint8Array): PoseTrack {
  const content = gunzipSync(file);
  const headerEnd = 4 + content.readUInt32LE(0);
  const header = headerSchema.parse(JSON.parse(content.toString('utf8', 4, headerEnd)));
  const { frames, model, quality, width, height, framesInFilm, people } = header;
  const columnBytes = frames * KEYPOINT_COUNT * 4;
  if (content.length !== headerEnd + frames * 8 + 3 * columnBytes) {
    throw new Error('the pose track file has another length than its header says');
  }
  const times = fromPlanes(content.subarray(headerEnd, headerEnd + frames * 8), 8);
  const column = (index: number, steps: number) => {
    const from = headerEnd + frames * 8 + index * columnBytes;
    return sums(content.subarray(from, from + columnBytes), frames, steps);
  };
  return {
    ...{ model, quality, width, height, framesInFilm, people },
    seconds: Float64Array.from({ length: frames }, (_, frame) => times.readDoubleLE(frame * 8)),
    x: column(0, POSITION_STEPS),
    y: column(1, POSITION_STEPS),
    score: column(2, SCORE_STEPS),
  };
}

function rounded(values: Float32Array, steps: number): Float32Array {
  // Adding 0 turns -0 into 0, which the integers of the file do not tell apart.
  return values.map((value) => Math.round(value * steps) / steps + 0);
}

function differences(values: Float32Array, steps: number): Buffer {
  const frames = values.length / KEYPOINT_COUNT;
  const result = Buffer.alloc(values.length * 4);
  for (let keypoint = 0; keypoint < KEYPOINT_COUNT; keypoint++) {
    let previous = 0;
    for (let frame = 0; frame < frames; frame++) {
      const value = Math.round(values[frame * KEYPOINT_COUNT + keypoint]! * steps);
      result.writeInt32LE(value - previous, (keypoint * frames + frame) * 4);
      previous = value;
    }
  }
  return toPlanes(result, 4);
}

function sums(planes: Uint8Array, frames: number, steps: number): Float32Array {
  const content = fromPlanes(planes, 4);
  const result = new Float32Array(frames * KEYPOINT_COUNT);
  for (let keypoint = 0; keypoint < KEYPOINT_COUNT; keypoint++) {
    let value = 0;
    for (let frame = 0; frame < frames; frame++) {
      value += content.readInt32LE((keypoint * frames + frame) * 4);
      result[frame * KEYPOINT_COUNT + keypoint] = value / steps;
    }
  }
  return result;
}

function toPlanes(content: Uint8Array, bytes: number): Buffer {
  const count = content.length / bytes;
  const result = Buffer.alloc(content.length);
  for (let at = 0; at < content.length; at++)
    result[(at % bytes) * count + Math.floor(at / bytes)] = content[at]!;
  return result;
}

function fromPlanes(planes: Uint8Array, bytes: number): Buffer {
  const count = planes.length / bytes;
  const result = Buffer.alloc(planes.length);
  for (let at = 0; at < planes.length; at++)
    result[at] = planes[(at % bytes) * count + Math.floor(at / bytes)]!;
  return result;
}
