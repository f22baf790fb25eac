import { type Ffmpeg, locateFfmpeg } from '../../core/media/locateFfmpeg.js';
import { requireDrawnText } from '../../core/media/subtitleFilter.js';
import { refuseUnlessWritable } from '../../core/media/writeAside.js';
import type { FilmOptions } from '../options/filmOptions.js';
import type { SetOptions } from '../options/setOptions.js';
import type { PhaseWords } from '../views/words/phaseWords.js';
import { analyzeFilm } from './analyzeFilm.js';
import { refuseBackwardsPart } from './openFilm.js';
import { progressOf } from './progress.js';
import { setRequest } from './setRequest.js';
import { spareFilms } from './sparedFilms.js';

/** What every command that draws on pictures of the film takes. */
export interface DrawOptions extends FilmOptions, SetOptions {
  readonly output: string;
  readonly figureOnly?: true | undefined;
  readonly force?: true | undefined;
  readonly quiet?: true | undefined;
}

export type AnalyzedToDraw = Awaited<ReturnType<typeof analyzeFilm>> & {
  readonly ffmpeg: Ffmpeg;
  readonly words: PhaseWords;
};

/**
 * Analyzes a film for drawing on it: everything that could refuse the drawing is asked before the long work begins.
 *
 * @returns null, with the reason on standard error, where the film cannot answer.
 * @throws Failure for a wrong command line, an unreadable film, an ffmpeg that can't draw, and an interruption.
 */
export async function analyzeToDraw(
  file: string,
  options: DrawOptions,
  product: 'annotated film' | 'picture',
): Promise<AnalyzedToDraw | null> {
  const request = await setRequest(options);
  refuseBackwardsPart(options);
  await spareFilms([file], { '--output': options.output });
  await refuseUnlessWritable(options.output, { force: options.force === true });
  const ffmpeg = await locateFfmpeg({ explicitPath: options.ffmpeg });
  await requireDrawnText(ffmpeg);
  const progress = progressOf(file, options.quiet === true);
  const analyzed = await analyzeFilm(file, async () => ffmpeg, request, options, progress);
  const { report } = analyzed.analysis;
  if (!report.quality.usable) {
    process.stderr.write(`${report.headline}\nNo ${product} was written.\n`);
    return null;
  }
  return { ...analyzed, ffmpeg, words: analyzed.request.exercise.words };
}
