import { describe, expect, test } from 'vitest';
import { cutOut } from '../../../core/pose/cutOut.js';

/** A picture whose red is the column, green the row, blue 255. */
function gradient(width: number, height: number) {
  const pixels = new Uint8Array(width * height * 3);
  for (let row = 0; row < height; row++) {
    for (let column = 0; column < width; column++) {
      pixels.set([column, row, 255], (row * width + column) * 3);
    }
  }
  return { width, height, pixels };
}

const at = (crop: Uint8Array, size: number, column: number, row: number) =>
  Array.from(crop.subarray((row * size + column) * 3, (row * size + column) * 3 + 3));

describe('cut-out', () => {
  const frame = gradient(40, 30);
  const window = { left: 0, top: 0, width: 40, height: 30 };

  test('at one to one copies the pixels', () => {
    const crop = cutOut(frame, window, { centerX: 15, centerY: 15, side: 10 }, 10);
    expect(at(crop, 10, 0, 0)).toEqual([10, 10, 255]);
    expect(at(crop, 10, 9, 9)).toEqual([19, 19, 255]);
  });

  test('is 0 outside the picture', () => {
    const crop = cutOut(frame, window, { centerX: 0, centerY: 0, side: 10 }, 10);
    expect(at(crop, 10, 0, 0)).toEqual([0, 0, 0]);
    expect(at(crop, 10, 4, 5)).toEqual([0, 0, 0]);
    expect(at(crop, 10, 5, 5)).toEqual([0, 0, 255]);
    expect(at(crop, 10, 9, 9)).toEqual([4, 4, 255]);
  });

  test('halves between two pixels', () => {
    const crop = cutOut(frame, window, { centerX: 15.5, centerY: 15, side: 10 }, 10);
    expect(at(crop, 10, 0, 0)).toEqual([11, 10, 255]);
  });

  test('reads a frame that shows part of the picture at half size', () => {
    const crop = cutOut(
      frame,
      { left: 100, top: 200, width: 80, height: 60 },
      { centerX: 130, centerY: 230, side: 20 },
      10,
    );
    expect(at(crop, 10, 0, 0)).toEqual([10, 10, 255]);
    expect(at(crop, 10, 9, 9)).toEqual([19, 19, 255]);
  });
});
