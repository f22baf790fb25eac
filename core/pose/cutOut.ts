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
  const result = new Uint8Array(size * size * 3);
  for (let row = 0; row < size; row++) {
    for (let column = 0; column < size; column++) {
      sampleInto(result, (row * size + column) * 3, frame, left + column * stepX, top + row * stepY);
    }
  }
  return result;
}

function sampleInto(
  result: Uint8Array,
  target: number,
  frame: Pick<TimedFrame, 'width' | 'height' | 'pixels'>,
  x: number,
  y: number,
): void {
  const { width, height, pixels } = frame;
  if (x <= -1 || y <= -1 || x >= width || y >= height) return;
  const column = Math.floor(x);
  const row = Math.floor(y);
  const right = x - column;
  const down = y - row;
  const first = (row * width + column) * 3;
  if (column >= 0 && row >= 0 && column + 1 < width && row + 1 < height) {
    const below = first + width * 3;
    for (let channel = 0; channel < 3; channel++) {
      const upper = pixels[first + channel]! * (1 - right) + pixels[first + 3 + channel]! * right;
      const lower = pixels[below + channel]! * (1 - right) + pixels[below + 3 + channel]! * right;
      result[target + channel] = upper * (1 - down) + lower * down + 0.5;
    }
    return;
  }
  const at = (atColumn: number, atRow: number, channel: number) =>
    atColumn < 0 || atRow < 0 || atColumn >= width || atRow >= height
      ? 0
      : pixels[(atRow * width + atColumn) * 3 + channel]!;
  for (let channel = 0; channel < 3; channel++) {
    const upper = at(column, row, channel) * (1 - right) + at(column + 1, row, channel) * right;
    const lower = at(column, row + 1, channel) * (1 - right) + at(column + 1, row + 1, channel) * right;
    result[target + channel] = upper * (1 - down) + lower * down + 0.5;
  }
}
