import { readFile } from 'node:fs/promises';
import { join } from 'node:path';
import type { SetRequest } from '../../analysis/analyzeSet.js';
import type { FilmFacts } from '../../core/media/film.js';
import { withTemporaryFolder } from '../../core/media/temporaryFolder.js';
import { writeAside } from '../../core/media/writeAside.js';
import { interruption } from '../interruption.js';
import { openWithDesktop } from '../output/openWithDesktop.js';
import type { AboutSet } from '../views/page/set/headerSection.js';
import type { EmbeddedFilm } from '../views/page/set/playerSection.js';
import type { AnalyzedFilm } from './analyzeFilm.js';
import { filmAddress } from './filmAddress.js';
import type { PageDrawer } from './pageDrawer.js';
import { progressOf } from './progress.js';

/** Options that decide what the page of a set shows beside its figures. */
export interface PageOptions {
  readonly embedFilm?: true | undefined;
  readonly figureOnly?: true | undefined;
  readonly open?: true | undefined;
  readonly force?: true | undefined;
  readonly quiet?: true | undefined;
  readonly ffmpeg?: string | undefined;
}

/** A film analyzed now, or one of the history with what is kept of its question. */
export type FilmOfPage = Omit<AnalyzedFilm, 'request' | 'details'> & {
  readonly request: Pick<SetRequest, 'exercise' | 'tolerance'>;
};

/**
 * Writes the page of a set, says so, and opens it where that is asked.
 *
 * @throws Failure (usage) where the page can't be written; (film) where the copy to embed can't be made.
 */
export async function writeSetPage(
  page: string,
  { film, track, analysis, request }: FilmOfPage,
  options: PageOptions,
  about: AboutSet,
  drawer: PageDrawer,
): Promise<void> {
  const figureOnly = options.figureOnly === true;
  const embeddedFilm = options.embedFilm === true && !figureOnly ? await smallCopy(film, options) : null;
  const text = await drawer.draw(analysis, track, {
    filmHref: figureOnly ? null : filmAddress(page, film.file),
    figureOnly,
    words: request.exercise.words,
    about,
    ...(request.tolerance === undefined ? {} : { tolerance: request.tolerance }),
    ...(embeddedFilm === null ? {} : { embeddedFilm }),
  });
  await writeAside(page, text, { force: options.force === true });
  if (options.quiet !== true) process.stderr.write(`Page written to ${page}\n`);
  if (options.open === true) await openWithDesktop(page);
}

const LONG_SIDE_PIXELS = 480;

/** A copy small enough to carry inside a page: no sound, the longer side at most 480 pixels. */
async function smallCopy(
  film: FilmFacts,
  options: Pick<PageOptions, 'ffmpeg' | 'quiet'>,
): Promise<EmbeddedFilm> {
  const { locateFfmpeg } = await import('../../core/media/locateFfmpeg.js');
  const { transcodeFilm } = await import('../../core/media/transcodeFilm.js');
  const ffmpeg = await locateFfmpeg({ explicitPath: options.ffmpeg });
  const progress = progressOf(film.file, options.quiet === true);
  const scale = Math.min(1, LONG_SIDE_PIXELS / Math.max(film.width, film.height));
  const even = (pixels: number) => Math.max(2, 2 * Math.round((pixels * scale) / 2));
  return withTemporaryFolder(async (folder) => {
    const copy = join(folder, 'copy.mp4');
    await transcodeFilm(film, copy, ffmpeg, {
      videoFilter: null,
      sound: false,
      size: { width: even(film.width), height: even(film.height) },
      constantRateFactor: 30,
      signal: interruption,
      onProgress: (seconds) =>
        progress.update({ stage: 'copying', done: seconds, total: film.durationSeconds }),
    }).finally(progress.stop);
    return { type: 'video/mp4', base64: (await readFile(copy)).toString('base64') };
  });
}
