import type { TimedFrame } from '../media/film.js';
import type { PictureSize } from './region.js';

/** The largest size with the picture's own proportions whose longer side is `longerSide`; never enlarged. */
export function fitted(picture: PictureSize, longerSide: number): PictureSize {
  const scale = Math.min(1, longerSide / Math.max(picture.width, picture.height));
  return {
    width: Math.max(1, Math.round(picture.width * scale)),
    height: Math.max(1, Math.round(picture.height * scale)),
  };
}

/** Puts a frame into the top left corner of a black square. */
export function padToSquare(frame: TimedFrame, size: number): Uint8Array {
  if (frame.width > size || frame.height > size) {
    throw new Error(`a frame of ${frame.width} × ${frame.height} pixels does not fit a square of ${size}`);
  }
  const square = new Uint8Array(size * size * 3);
  for (let row = 0; row < frame.height; row++) {
    const from = row * frame.width * 3;
    square.set(frame.pixels.subarray(from, from + frame.width * 3), row * size * 3);
  }
  return square;
}
