import type { Window } from './cutOut.js';
import { fitted } from './letterbox.js';
import { type PictureSize, type Region, wholePicture } from './region.js';
import { roomForVariation } from './variedRegion.js';

/** What one decode hands out: a part of the picture, at a size. */
export interface DecodePlan {
  readonly window: Window;
  readonly width: number;
  readonly height: number;
}

/** The decoded picture shows the region this many times larger than the model needs, so that it is never enlarged. */
const OVERSAMPLING = 1.15;
/** Pictures are scaled in steps, this many to a doubling: a film of which a little more is hidden is scaled alike. */
const STEPS_TO_A_DOUBLING = 4;
/** Windows begin and end at multiples of this many pixels, so that subsampled colour needs no rounding. */
const GRID = 4;

/**
 * The smallest picture from which every variation of every region can be cut out at the model's size: only the part of
 * the film that some of them touches, scaled so that the smallest region need not be enlarged.
 */
export function planDecode(picture: PictureSize, wanted: readonly Region[], modelSize: number): DecodePlan {
  const regions = wanted.length === 0 ? [wholePicture(picture)] : wanted;
  const smallest = Math.min(...regions.map((region) => region.side));
  const needed = (OVERSAMPLING * modelSize) / smallest;
  const scale = 2 ** (Math.ceil(STEPS_TO_A_DOUBLING * Math.log2(needed)) / STEPS_TO_A_DOUBLING);
  const window = touched(picture, regions.map(roomForVariation));
  const size = fitted(window, Math.round(Math.max(window.width, window.height) * scale));
  return { window, ...size };
}

function touched(picture: PictureSize, regions: readonly Region[]): Window {
  const down = (value: number) => Math.max(0, Math.floor(value / GRID) * GRID);
  const up = (value: number, limit: number) => Math.min(limit, Math.ceil(value / GRID) * GRID);
  const left = down(Math.min(...regions.map((region) => region.centerX - region.side / 2)));
  const top = down(Math.min(...regions.map((region) => region.centerY - region.side / 2)));
  const right = up(Math.max(...regions.map((region) => region.centerX + region.side / 2)), picture.width);
  const bottom = up(Math.max(...regions.map((region) => region.centerY + region.side / 2)), picture.height);
  return { left, top, width: right - left, height: bottom - top };
}
