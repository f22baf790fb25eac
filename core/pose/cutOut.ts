import type { TimedFrame } from '../media/film.js';
import { type Region, toPicture } from './region.js';

/** The part of the upright picture a decoded frame shows, in pixels of the upright picture. */
export interface Window {
  readonly left: number;
  readonly top: number;
  readonly width: number;
  readonly height: number;
}

/**
 * Cuts a region out of a decoded frame, sampled bilinearly at pixel centres and
 * filled with 0 outside the frame (as MoveNet's own cut-out is).
 *
 * @param window what the frame shows; the frame may be smaller or larger than this in pixels.
 * @param size side of the square result in pixels.
 * @returns red, green, blue, one byte each, `size × size` pixels, row by row.
 */
export function cutOut(
  frame: Pick<TimedFrame, 'width' | 'height' | 'pixels'>,
  window: Window,
  region: Region,
  size: number,
): Uint8Array {
  const stepX = (region.side / size) * (frame.width / window.width);
  const stepY = (region.side / size) * (frame.height / window.height);
  const corner = toPicture(region, 0.5 / size, 0.5 / size);
  const left = (corner.x - window.left) * (frame.width / window.width) - 0.5;
  const top = (corner.y - window.top) * (frame.height / window.height) - 0.5;
  const columns = taps(left, stepX, size, frame.width);
  const rows = taps(top, stepY, size, frame.height);
  const { pixels } = frame;
  const result = new Uint8Array(size * size * 3);
  let target = 0;
  for (let row = 0; row < size; row++) {
    const upper = rows.first[row]! * frame.width;
    const lower = rows.second[row]! * frame.width;
    const upperWeight = rows.firstWeight[row]!;
    const lowerWeight = rows.secondWeight[row]!;
    for (let column = 0; column < size; column++) {
      const near = columns.first[column]!;
      const far = columns.second[column]!;
      const nearWeight = columns.firstWeight[column]!;
      const farWeight = columns.secondWeight[column]!;
      const a = (upper + near) * 3;
      const b = (upper + far) * 3;
      const c = (lower + near) * 3;
      const d = (lower + far) * 3;
      for (let channel = 0; channel < 3; channel++) {
        result[target++] =
          (pixels[a + channel]! * nearWeight + pixels[b + channel]! * farWeight) * upperWeight +
          (pixels[c + channel]! * nearWeight + pixels[d + channel]! * farWeight) * lowerWeight +
          0.5;
      }
    }
  }
  return result;
}

/** Along one axis: the two pixels each sample lies between, and their weights. */
interface Taps {
  readonly first: Int32Array;
  readonly second: Int32Array;
  readonly firstWeight: Float64Array;
  readonly secondWeight: Float64Array;
}

/** Pixels outside the frame weigh nothing, which fills the outside with 0. */
function taps(start: number, step: number, size: number, length: number): Taps {
  const result = {
    first: new Int32Array(size),
    second: new Int32Array(size),
    firstWeight: new Float64Array(size),
    secondWeight: new Float64Array(size),
  };
  const inside = (pixel: number) => pixel >= 0 && pixel < length;
  for (let index = 0; index < size; index++) {
    const at = start + index * step;
    const pixel = Math.floor(at);
    if (inside(pixel)) {
      result.first[index] = pixel;
      result.firstWeight[index] = 1 - (at - pixel);
    }
    if (inside(pixel + 1)) {
      result.second[index] = pixel + 1;
      result.secondWeight[index] = at - pixel;
    }
  }
  return result;
}
