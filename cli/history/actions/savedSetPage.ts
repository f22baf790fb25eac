import { existsSync } from 'node:fs';
import path from 'node:path';
import { pathToFileURL } from 'node:url';
import type { SetReport } from '../../../analysis/report/setReport.js';
import { Failure } from '../../../core/failure.js';
import { decodeTrack } from '../../../core/pose/trackFile.js';
import { renderSetPage } from '../../views/page/setPage.js';
import type { History } from '../history.js';
import { readTrack } from '../readSets.js';
import { analyzeAgain } from '../scoreAgain.js';

/**
 * The page of a saved set, with the film where it still lies where it was.
 *
 * @throws Failure of kind `usage` when the set was stored without its pose track, which the pictures are drawn from.
 */
export function savedSetPage(history: History, id: number, report: SetReport): string {
  const saved = readTrack(history, id);
  if (saved === null) {
    throw new Failure(
      'usage',
      `Set ${id} was stored without its pose track, so its page cannot be drawn.`,
      'Analyze the film again with --page.',
    );
  }
  const { curves } = analyzeAgain(saved, {
    exercise: saved.request.exercise,
    plan: report.plan,
    load: report.load ?? null,
  });
  const film = path.resolve(saved.film.file);
  return renderSetPage({ report, curves }, decodeTrack(saved.bytes), saved.film, {
    filmHref: existsSync(film) ? pathToFileURL(film).href : null,
    figureOnly: !existsSync(film),
    words: saved.request.exercise.words,
  });
}
