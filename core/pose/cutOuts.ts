import type { TimedFrame } from '../media/film.js';
import { cutOut, type Window } from './cutOut.js';
import type { Region } from './region.js';
import type { RegionTrack } from './regionTrack.js';

/** A frame's part that the model is shown. */
export interface FrameCutOut {
  readonly seconds: number;
  readonly region: Region;
  /** Red, green, blue, one byte each, in the model's size. */
  readonly crop: Uint8Array;
}

export interface CutOutOptions {
  /** What the frames show of the upright picture. */
  readonly window: Window;
  readonly regionAt: RegionTrack;
  /** Side of the square cut out, in pixels. */
  readonly size: number;
  /** Frames closer than this to the last one are passed over, seconds; 0 passes over none. */
  readonly minimumIntervalSeconds: number;
  /** Told the time of every frame, those passed over too. */
  readonly onFrame: (seconds: number) => void;
}

/** Container times are rounded to their time base: frames of a 30 fps film may lie 0.033 s apart. */
export const TIME_ROUNDING = 0.002;

/** Cuts out of each frame what the model is to see; a copy, so that the frame itself need not be held. */
export async function* cutOuts(
  frames: AsyncIterable<TimedFrame>,
  { window, regionAt, size, minimumIntervalSeconds, onFrame }: CutOutOptions,
): AsyncGenerator<FrameCutOut, void, undefined> {
  let last = Number.NEGATIVE_INFINITY;
  for await (const frame of frames) {
    const { seconds } = frame;
    onFrame(seconds);
    if (seconds <= last || seconds - last < minimumIntervalSeconds - TIME_ROUNDING) continue;
    last = seconds;
    const region = regionAt(seconds);
    yield { seconds, region, crop: cutOut(frame, window, region, size) };
  }
}
