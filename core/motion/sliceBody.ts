import { KEYPOINT_COUNT } from '../pose/keypoints.js';
import type { Body } from './body.js';

/** The frames of a body from `fromSeconds` to `toSeconds`, both included. */
export function sliceBody(body: Body, fromSeconds: number, toSeconds: number): Body {
  const first = firstIndexAtOrAfter(body.seconds, fromSeconds);
  let end = first;
  while (end < body.frames && body.seconds[end]! <= toSeconds) end += 1;
  const from = first * KEYPOINT_COUNT;
  const to = end * KEYPOINT_COUNT;
  return {
    ...body,
    frames: end - first,
    seconds: body.seconds.subarray(first, end),
    x: body.x.subarray(from, to),
    y: body.y.subarray(from, to),
    score: body.score.subarray(from, to),
    seen: body.seen.subarray(from, to),
    standardErrorPixels: body.standardErrorPixels.subarray(from, to),
  };
}

function firstIndexAtOrAfter(seconds: Float64Array, from: number): number {
  let low = 0;
  let high = seconds.length;
  while (low < high) {
    const middle = (low + high) >> 1;
    if (seconds[middle]! < from) low = middle + 1;
    else high = middle;
  }
  return low;
}
