import { createRequire } from 'node:module';
import type { SingleBar } from 'cli-progress';
import type { PoseProgress } from '../../core/pose/trackFrames.js';

/** How far a piece of long work is, in frames or in seconds of the film; its end may be unknown. */
export interface WorkProgress {
  readonly stage: PoseProgress['stage'] | 'drawing' | 'copying';
  readonly done: number;
  readonly total: number | null;
}

/** Tells on standard error how far a film is, and what else is worth knowing. */
export interface FilmProgress {
  readonly update: (progress: WorkProgress) => void;
  /** One line that matters to the user whatever the progress. */
  readonly note: (message: string) => void;
  readonly stop: () => void;
}

const STAGES: Record<WorkProgress['stage'], string> = {
  looking: 'looking for the lifter',
  measuring: 'measuring',
  drawing: 'drawing',
  copying: 'copying for the page',
};

const SILENT: FilmProgress = { update: () => {}, note: () => {}, stop: () => {} };

/** A bar with the time left in a terminal; nothing but notes elsewhere; nothing at all when `quiet`. */
export function progressOf(
  film: string,
  quiet: boolean,
  stream: NodeJS.WriteStream = process.stderr,
): FilmProgress {
  if (quiet) return SILENT;
  const note = (message: string) => void stream.write(`${message}\n`);
  return stream.isTTY === true ? barOn(stream, film) : { ...SILENT, note };
}

/** Bars are loaded with the first one drawn: a film that was measured before shows none. */
const load = createRequire(import.meta.url);

function barOn(stream: NodeJS.WriteStream, film: string): FilmProgress {
  let bar: SingleBar | null = null;
  let stage: WorkProgress['stage'] | null = null;
  const stop = () => {
    bar?.stop();
    bar = null;
  };
  return {
    stop,
    note(message) {
      stop();
      stage = null;
      stream.write(`${message}\n`);
    },
    update(progress) {
      if (progress.total === null) return;
      if (bar === null || progress.stage !== stage) {
        stop();
        stage = progress.stage;
        const { SingleBar } = load('cli-progress') as typeof import('cli-progress');
        bar = new SingleBar({
          stream,
          format: `${film}: ${STAGES[stage]} {bar} {percentage} %, {eta_formatted} left`,
          barsize: 24,
          barCompleteChar: '█',
          barIncompleteChar: '░',
          hideCursor: true,
          clearOnComplete: true,
          stopOnComplete: false,
          gracefulExit: false,
          etaBuffer: 60,
        });
        bar.start(progress.total, 0);
      }
      // The total is an estimate from the film's length; a bar beyond its end would only confuse.
      bar.update(Math.min(progress.done, progress.total));
    },
  };
}
