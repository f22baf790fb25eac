import { writeFile } from 'node:fs/promises';
import { join } from 'node:path';
import { locateFfmpeg } from '../../core/media/locateFfmpeg.js';
import { requireDrawnText, subtitleFilter } from '../../core/media/subtitleFilter.js';
import { withTemporaryFolder } from '../../core/media/temporaryFolder.js';
import { transcodeFilm } from '../../core/media/transcodeFilm.js';
import { refuseUnlessWritable } from '../../core/media/writeAside.js';
import { EXIT, type ExitCode } from '../exitCode.js';
import { interruption } from '../interruption.js';
import type { FilmOptions } from '../options/filmOptions.js';
import type { SetOptions } from '../options/setOptions.js';
import { annotatedScript, sharedSize } from '../views/annotated/annotatedScript.js';
import { analyzeFilm } from './analyzeFilm.js';
import { refuseBackwardsPart } from './openFilm.js';
import { progressOf } from './progress.js';
import { setRequest } from './setRequest.js';

export interface AnnotateOptions extends FilmOptions, SetOptions {
  readonly output: string;
  readonly sound?: true | undefined;
  readonly figureOnly?: true | undefined;
  readonly force?: true | undefined;
  readonly quiet?: true | undefined;
}

/** Covers the picture with one colour, so that only the figure is left. */
const PLAIN_BACKGROUND = 'drawbox=x=0:y=0:w=iw:h=ih:color=0x20282c:t=fill';

/**
 * Writes a copy of the film with the figure, the running phase and its verdict drawn over it.
 *
 * @throws Failure for a wrong command line, an unreadable film, an ffmpeg that can't draw, and an interruption.
 */
export async function annotateFilm(file: string, options: AnnotateOptions): Promise<ExitCode> {
  const request = await setRequest(options);
  refuseBackwardsPart(options);
  const force = options.force === true;
  await refuseUnlessWritable(options.output, { force });
  const ffmpeg = await locateFfmpeg({ explicitPath: options.ffmpeg });
  await requireDrawnText(ffmpeg);
  const quiet = options.quiet === true;
  const { film, track, analysis } = await analyzeFilm(
    file,
    ffmpeg,
    request,
    options,
    progressOf(file, quiet),
  );
  const { report } = analysis;
  if (!report.quality.usable) {
    process.stderr.write(`${report.headline}\nNo annotated film was written.\n`);
    return EXIT.cannotAnswer;
  }
  const size = sharedSize(film);
  await withTemporaryFolder(async (folder) => {
    const script = join(folder, 'overlay.ass');
    await writeFile(
      script,
      annotatedScript(report, track, size, request.exercise.words, film.slowMotionFactor),
    );
    const filters = [...(options.figureOnly === true ? [PLAIN_BACKGROUND] : []), subtitleFilter(script)];
    await transcodeFilm(film, options.output, ffmpeg, {
      videoFilter: filters.join(','),
      sound: options.sound === true,
      size,
      force,
      signal: interruption,
      ...(options.from === undefined ? {} : { fromSeconds: options.from }),
      ...(options.to === undefined ? {} : { toSeconds: options.to }),
    });
  });
  if (!quiet) process.stderr.write(`${options.output} is ready.\n`);
  return EXIT.answered;
}
