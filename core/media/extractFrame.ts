import { Failure } from '../failure.js';
import type { FilmFacts, TimedFrame } from './film.js';
import { streamFrames } from './frames.js';
import type { Ffmpeg } from './locateFfmpeg.js';
import type { Rectangle } from './pictureFilters.js';

export interface PictureRequest {
  readonly width: number;
  readonly height: number;
  readonly region?: Rectangle;
  readonly signal?: AbortSignal;
}

/**
 * The picture a player shows at a time of the film: the last frame whose time is not after it (the first frame where
 * there is none, the last one beyond the film's end).
 *
 * @throws Failure of kind `film` where there is no such picture.
 */
export async function extractFrame(
  film: FilmFacts,
  ffmpeg: Ffmpeg,
  seconds: number,
  request: PictureRequest,
): Promise<TimedFrame> {
  const longestFrame = Math.max(1, 3 / (film.frameRate || 30));
  let shown: TimedFrame | undefined;
  const fromSeconds = Math.max(0, Math.min(seconds, film.durationSeconds) - longestFrame);
  for await (const frame of streamFrames(film, ffmpeg, { ...request, fromSeconds })) {
    if (shown !== undefined && frame.seconds > seconds + 1e-6) break;
    shown = { ...frame, pixels: Uint8Array.from(frame.pixels) };
    if (frame.seconds > seconds) break;
  }
  if (shown === undefined) {
    throw new Failure('film', `"${film.file}" has no picture at ${seconds.toFixed(2)} s.`);
  }
  return shown;
}
