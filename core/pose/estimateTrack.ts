import { Failure } from '../failure.js';
import type { FilmFacts } from '../media/film.js';
import { streamFrames } from '../media/frames.js';
import { stopIfInterrupted } from '../media/interruption.js';
import type { Ffmpeg } from '../media/locateFfmpeg.js';
import { type Backend, chooseBackend } from './accelerator.js';
import type { LifterPointer } from './lifter.js';
import type { Accelerator } from './modelFacts.js';
import type { PoseTrack, Quality } from './track.js';
import { type PoseProgress, trackFrames } from './trackFrames.js';
import { verifiedPool } from './verifiedPool.js';
import { defaultWorkers, startWorkerPool } from './workerPool.js';

export interface EstimateOptions {
  readonly quality: Quality;
  /** Inference workers; as many as the machine has cores by default. The result is the same for any number. */
  readonly workers?: number | undefined;
  /** What runs the networks; the processor by default. Both give the same keypoints within 1 % of the trunk. */
  readonly accelerator?: Accelerator | undefined;
  /** Only frames with `fromSeconds ≤ time < toSeconds`, in film time. */
  readonly fromSeconds?: number | undefined;
  readonly toSeconds?: number | undefined;
  /** Who the lifter is, where the program should not choose. */
  readonly lifter?: LifterPointer | undefined;
  readonly onProgress?: ((progress: PoseProgress) => void) | undefined;
  /** Told, in one line, of damage in the film that was passed over, and of a graphics adapter that can't be used. */
  readonly onWarning?: ((message: string) => void) | undefined;
  readonly signal?: AbortSignal | undefined;
}

/**
 * Measures where the lifter's keypoints are throughout a film.
 *
 * A coarse pass finds the people and chooses the lifter; then each frame is cut out around where the lifter is
 * at that time and measured on its own; of a long film only where the lifter moves. Memory does not grow with the film, apart from the result.
 *
 * @throws Failure 'film' where no frame can be read, 'installation' where weights or the compiled worker are
 *   missing, 'usage' where `lifter` points at nobody, 'interrupted' when `signal` aborts.
 */
export async function estimatePoseTrack(
  film: FilmFacts,
  ffmpeg: Ffmpeg,
  options: EstimateOptions,
): Promise<PoseTrack> {
  const warn = options.onWarning ?? (() => {});
  stopIfInterrupted(options.signal);
  const backend = await chooseBackend(options.accelerator ?? 'cpu', warn);
  if (backend === 'processor') return estimateWith(backend, film, ffmpeg, options);
  try {
    return await estimateWith(backend, film, ffmpeg, options);
  } catch (error) {
    if (error instanceof Failure && error.kind !== 'installation') throw error;
    const [reason] = (error instanceof Error ? error.message : String(error)).split('\n');
    warn(`The graphics adapter can't be used (${reason}). The processor measures instead.`);
    return estimateWith('processor', film, ffmpeg, options);
  }
}

async function estimateWith(
  backend: Backend,
  film: FilmFacts,
  ffmpeg: Ffmpeg,
  options: EstimateOptions,
): Promise<PoseTrack> {
  const { signal } = options;
  stopIfInterrupted(signal);
  const started = startWorkerPool(options.workers ?? defaultWorkers(backend), backend);
  const pool = backend === 'graphics' ? verifiedPool(started) : started;
  const closePool = () => void pool.close();
  signal?.addEventListener('abort', closePool, { once: true });
  try {
    return await trackFrames(
      film,
      (decode) =>
        streamFrames(film, ffmpeg, {
          fromSeconds: options.fromSeconds,
          toSeconds: options.toSeconds,
          ...decode,
          signal,
          onWarning: options.onWarning,
        }),
      pool,
      {
        quality: options.quality,
        startSeconds: options.fromSeconds ?? 0,
        lengthSeconds: lengthOf(film, options),
        lifter: options.lifter ?? null,
        onProgress: options.onProgress ?? (() => {}),
      },
    );
  } catch (error) {
    // Closing the pool makes its open jobs fail; what the user should hear is that they stopped the program.
    stopIfInterrupted(signal);
    throw error;
  } finally {
    signal?.removeEventListener('abort', closePool);
    await pool.close();
  }
}

function lengthOf(film: FilmFacts, options: EstimateOptions): number | null {
  const end = Math.min(film.durationSeconds, options.toSeconds ?? Number.POSITIVE_INFINITY);
  const length = end - (options.fromSeconds ?? 0);
  return Number.isFinite(length) && length > 0 ? length : null;
}
