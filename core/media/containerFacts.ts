import { existsSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { Worker } from 'node:worker_threads';

/** What the container itself says about its first film track. */
export interface ContainerFacts {
  /** Clockwise turn, applied before the flip. */
  readonly rotationDegrees: 0 | 90 | 180 | 270;
  readonly flipped: boolean;
  /** Presentation times of the packets that a player shows, seconds, in order. */
  readonly packetTimes: readonly number[];
  /** When the first stored packet would be shown, seconds: below zero where an edit list hides it. */
  readonly firstStoredSeconds: number;
  /** Where the last packet ends, seconds. */
  readonly endSeconds: number;
  /** Frames a second while recording (`com.android.capture.fps`), or null. */
  readonly captureRate: number | null;
  /** The creation date with zone that Apple's cameras write, or null. */
  readonly creationDate: string | null;
}

/** Ten hours of film are read in less; a damaged file that takes longer is left to ffmpeg alone. */
const READING_MILLISECONDS = 15_000;
const READING_MEGABYTES = 512;

/**
 * Reads what the container of an MP4, QuickTime, Matroska or WebM file says, in a thread of its own that is ended
 * when it takes too long or too much memory.
 *
 * @returns null where the file can't be read so: another container, or damage. ffmpeg then has the say.
 */
export async function readContainerFacts(file: string): Promise<ContainerFacts | null> {
  const program = fileURLToPath(new URL(COMPILED_READER, import.meta.url));
  // From source and never built (single unit tests) there is no program for the thread.
  if (!existsSync(program)) {
    const { readContainerFactsHere } = await import('./readContainer.js');
    return readContainerFactsHere(file);
  }
  return new Promise((settle) => {
    const worker = new Worker(program, {
      workerData: file,
      stdout: true,
      stderr: true,
      resourceLimits: { maxOldGenerationSizeMb: READING_MEGABYTES },
    });
    const timer = setTimeout(() => finish(null), READING_MILLISECONDS);
    let finished = false;
    // Ending the thread makes it report its exit too; only the first answer counts.
    const finish = (facts: ContainerFacts | null) => {
      if (finished) return;
      finished = true;
      clearTimeout(timer);
      settle(facts);
      void worker.terminate();
    };
    worker.once('message', finish);
    worker.once('error', () => finish(null));
    worker.once('exit', () => finish(null));
  });
}

const COMPILED_READER = import.meta.url.endsWith('.ts')
  ? '../../dist/core/media/containerReader.js'
  : './containerReader.js';
