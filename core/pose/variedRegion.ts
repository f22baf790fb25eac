import type { Region } from './region.js';

/** Shares of a region's side by which it is made larger or smaller at most, and moved in each direction. */
const SIZE_VARIATION = 0.1;
const SHIFT_VARIATION = 0.03;

/** Each frame of an ordinary film of 30 a second gets the next variation; quicker films get those in between as well. */
const VARIATIONS_A_SECOND = 30;

/** The root of x⁴ = x + 1: multiples of its inverse powers fill three dimensions evenly. */
const ROOT = 1.2207440846057596;

/**
 * Shows the model every frame a little larger or smaller and off the centre.
 *
 * A pose model misplaces a joint in much the same way in pictures that look much the same, so that its error wanders as
 * slowly as the lifter moves and passes for movement. Where neighbouring frames are cut out differently their errors
 * differ too, and smoothing averages them: on rendered films what lasted of the error of a joint angle for 0.4 s fell
 * by a quarter to a half, at the price of more noise from frame to frame (the idea of dither in quantization). Showing
 * every other frame in a mirror as well averaged more, but the far arm then took over the near one now and then.
 *
 * @param seconds real time since the first picture that is stored, which alone decides, by an additive recurrence of
 *   low discrepancy (M. Roberts 2018, from memory). A frame is cut out alike however much before it is left out.
 */
export function variedRegion({ centerX, centerY, side }: Region, seconds: number): Region {
  const variation = (power: number) => 2 * fraction(0.5 + VARIATIONS_A_SECOND * seconds * ROOT ** -power) - 1;
  return {
    centerX: centerX + SHIFT_VARIATION * variation(1) * side,
    centerY: centerY + SHIFT_VARIATION * variation(2) * side,
    side: side * (1 + SIZE_VARIATION * variation(3)),
  };
}

/** A region that holds every variation of this one. */
export function roomForVariation(region: Region): Region {
  return { ...region, side: region.side * (1 + SIZE_VARIATION + 2 * SHIFT_VARIATION) };
}

const fraction = (value: number) => value - Math.floor(value);
