import type { FilmFacts, TimedFrame } from '../media/film.js';
import { streamFrames } from '../media/frames.js';
import { stopIfInterrupted } from '../media/interruption.js';
import type { Ffmpeg } from '../media/locateFfmpeg.js';
import { fitted } from './letterbox.js';
import { lookAround } from './lookAround.js';
import { DETECTOR_SIZE } from './modelFacts.js';
import type { Look } from './people.js';
import { defaultWorkers, startWorkerPool } from './workerPool.js';

/** What a few pictures spread over a film show. */
export interface Glance {
  readonly looks: readonly Look[];
  /** Mean brightness of each picture, 0 (black) to 255 (white). */
  readonly brightness: readonly number[];
}

export interface GlanceOptions {
  readonly workers?: number | undefined;
  readonly signal?: AbortSignal | undefined;
}

const PICTURES = 12;
/** A film of up to so many pixels over all its frames is decoded in one go: starting ffmpeg for each picture takes longer. */
const DECODED_WHOLE_PIXELS = 1e9;
/** Of a film that does not say how many frames a second it has. */
const USUAL_FRAME_RATE = 30;

/**
 * Looks at a dozen pictures of a film, a few seconds' work however long the film is.
 *
 * @throws Failure 'film' where no picture can be read, 'installation' where the program is not whole,
 *   'interrupted' when `signal` aborts.
 */
export async function glanceAt(
  film: FilmFacts,
  ffmpeg: Ffmpeg,
  options: GlanceOptions = {},
): Promise<Glance> {
  const { signal } = options;
  stopIfInterrupted(signal);
  const brightness: number[] = [];
  const pool = startWorkerPool(options.workers ?? defaultWorkers());
  const closePool = () => void pool.close();
  signal?.addEventListener('abort', closePool, { once: true });
  try {
    const looks = await lookAround(
      measured(spreadPictures(film, ffmpeg, signal), brightness),
      { width: film.width, height: film.height },
      pool,
      () => {},
    );
    return { looks, brightness };
  } catch (error) {
    stopIfInterrupted(signal);
    throw error;
  } finally {
    signal?.removeEventListener('abort', closePool);
    await pool.close();
  }
}

async function* spreadPictures(
  film: FilmFacts,
  ffmpeg: Ffmpeg,
  signal: AbortSignal | undefined,
): AsyncGenerator<TimedFrame> {
  const size = fitted(film, DETECTOR_SIZE);
  const interval = film.durationSeconds / PICTURES;
  const frames = film.durationSeconds * (film.frameRate || USUAL_FRAME_RATE);
  if (frames * film.width * film.height <= DECODED_WHOLE_PIXELS) {
    yield* streamFrames(film, ffmpeg, { ...size, signal, oneEverySeconds: interval });
    return;
  }
  for (let index = 0; index < PICTURES; index += 1) {
    const fromSeconds = (index + 0.5) * interval;
    // A film that says it is longer than it is still has its first pictures.
    for await (const frame of streamFrames(film, ffmpeg, { ...size, signal, fromSeconds })) {
      yield frame;
      break;
    }
  }
}

async function* measured(
  frames: AsyncIterable<TimedFrame>,
  brightness: number[],
): AsyncGenerator<TimedFrame> {
  for await (const frame of frames) {
    brightness.push(frame.pixels.reduce((sum, value) => sum + value, 0) / frame.pixels.length);
    yield frame;
  }
}
