import { writeFile } from 'node:fs/promises';
import { join } from 'node:path';
import { subtitleFilter } from '../../core/media/subtitleFilter.js';
import { withTemporaryFolder } from '../../core/media/temporaryFolder.js';
import { transcodeFilm } from '../../core/media/transcodeFilm.js';
import { EXIT, type ExitCode } from '../exitCode.js';
import { interruption } from '../interruption.js';
import { annotatedScript, sharedSize } from '../views/annotated/annotatedScript.js';
import { analyzeToDraw, type DrawOptions } from './analyzeToDraw.js';
import { progressOf } from './progress.js';

export interface AnnotateOptions extends DrawOptions {
  readonly sound?: true | undefined;
}

/** Covers the picture with one colour, so that only the figure is left. */
const PLAIN_BACKGROUND = 'drawbox=x=0:y=0:w=iw:h=ih:color=0x20282c:t=fill';

/**
 * Writes a copy of the film with the figure, the running phase and its verdict drawn over it.
 *
 * @throws Failure for a wrong command line, an unreadable film, an ffmpeg that can't draw, and an interruption.
 */
export async function annotateFilm(file: string, options: AnnotateOptions): Promise<ExitCode> {
  const analyzed = await analyzeToDraw(file, options, 'annotated film');
  if (analyzed === null) return EXIT.cannotAnswer;
  const { film, track, ffmpeg, words } = analyzed;
  const { report } = analyzed.analysis;
  const size = sharedSize(film);
  const progress = progressOf(file, options.quiet === true);
  const { from = 0, to = film.durationSeconds } = options;
  await withTemporaryFolder(async (folder) => {
    const script = join(folder, 'overlay.ass');
    await writeFile(script, annotatedScript(report, track, size, words, film.slowMotionFactor));
    const filters = [...(options.figureOnly === true ? [PLAIN_BACKGROUND] : []), subtitleFilter(script)];
    await transcodeFilm(film, options.output, ffmpeg, {
      videoFilter: filters.join(','),
      sound: options.sound === true,
      size,
      force: options.force === true,
      signal: interruption,
      onProgress: (seconds) =>
        progress.update({ stage: 'drawing', done: Math.max(0, seconds - from), total: to - from }),
      ...(options.from === undefined ? {} : { fromSeconds: options.from }),
      ...(options.to === undefined ? {} : { toSeconds: options.to }),
    }).finally(progress.stop);
  });
  if (options.quiet !== true) process.stderr.write(`${options.output} is ready.\n`);
  return EXIT.answered;
}
