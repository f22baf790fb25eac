import { existsSync } from 'node:fs';
import path from 'node:path';
import type { AngleCurve } from '../../analysis/analyzeSet.js';
import type { SetReport } from '../../analysis/report/setReport.js';
import { Failure } from '../../core/failure.js';
import { decodeTrack } from '../../core/pose/trackFile.js';
import type { History } from '../history/file/history.js';
import { readTrack } from '../history/sets/readSets.js';
import { analyzeAgain } from '../history/sets/scoreAgain.js';
import { beginPage } from '../pipeline/pageDrawer.js';
import { type PageOptions, writeSetPage } from '../pipeline/writeSetPage.js';
import type { AboutSet } from '../views/page/set/headerSection.js';

/**
 * Writes the page of a saved set, with the film where it still lies where it was and the moving figure otherwise.
 *
 * @param options `film`: where it lies now, where the user says so.
 * @throws Failure of kind `usage` when the set was stored without its pose track, which the pictures are drawn
 * from, or its page can't be written.
 */
export async function writeSavedSetPage(
  page: string,
  history: History,
  id: number,
  report: SetReport,
  options: PageOptions & { readonly film?: string },
  about: AboutSet,
): Promise<void> {
  const saved = readTrack(history, id);
  if (saved === null) {
    throw new Failure(
      'usage',
      `Set ${id} was stored without its pose track, so its page cannot be drawn.`,
      'Analyze the film again with --page.',
    );
  }
  const drawer = beginPage();
  try {
    const { curves } = analyzeAgain(saved, {
      exercise: saved.request.exercise,
      plan: report.plan,
      loads: { load: report.load ?? null, stageLoads: report.stageLoads ?? null },
      earlierRanges: [],
    });
    const film = { ...saved.film, file: path.resolve(options.film ?? saved.film.file) };
    const gone = !existsSync(film.file);
    if (gone && options.figureOnly !== true && options.quiet !== true) {
      process.stderr.write(
        `The film is no longer at ${film.file}: the page shows the figure alone. Name the film in place of the set to show it.\n`,
      );
    }
    await writeSetPage(
      page,
      {
        film,
        track: decodeTrack(saved.bytes),
        analysis: { report, curves: curvesOf(report, curves) },
        request: saved.request,
      },
      gone ? { ...options, figureOnly: true } : options,
      about,
      drawer,
    );
  } finally {
    drawer.close();
  }
}

/** A curve for every bout of the report: where the lifter dropped all reps of a bout, its curve has no place. */
function curvesOf(report: SetReport, curves: readonly AngleCurve[]): readonly AngleCurve[] {
  return report.bouts.flatMap((bout) => {
    const covers = ({ side, seconds }: AngleCurve) =>
      side === bout.side && seconds[0]! <= bout.startSeconds && seconds.at(-1)! >= bout.endSeconds;
    return curves.filter(covers).slice(0, 1);
  });
}
