import type { SetReport } from '../../analysis/report/setReport.js';
import { Failure } from '../../core/failure.js';
import { refuseUnlessWritable } from '../../core/media/writeAside.js';
import { EXIT, type ExitCode, highestExitCode } from '../exitCode.js';
import { reportFault } from '../faults.js';
import type { FilmOptions } from '../options/filmOptions.js';
import type { SetOptions } from '../options/setOptions.js';
import { answerTexts } from '../output/answerTexts.js';
import { type AnswerWriter, openAnswerWriter } from '../output/answerWriter.js';
import { CURVE_CSV_HEADER, curveCsv } from '../views/tables/curveCsv.js';
import { measureFilm, scoreFilm } from './analyzeFilm.js';
import { ffmpegWhenNeeded } from './ffmpegWhenNeeded.js';
import { type KeepOptions, keepSet } from './keepSet.js';
import { refuseBackwardsPart } from './openFilm.js';
import { beginPage, type PageDrawer } from './pageDrawer.js';
import { progressOf } from './progress.js';
import { setRequests } from './setRequest.js';
import { spareFilms } from './sparedFilms.js';
import type { PageOptions } from './writeSetPage.js';

/** Options of `analyze`, as read from the command line. */
export interface AnalyzeOptions extends FilmOptions, SetOptions, KeepOptions, PageOptions {
  readonly format: 'text' | 'json' | 'csv';
  readonly output?: string | undefined;
  readonly page?: string | undefined;
  readonly curve?: string | undefined;
  readonly debug?: boolean | undefined;
}

/**
 * Analyzes one film after the other and prints each answer as it comes. What goes wrong with one film is told on
 * standard error and does not keep the others from being answered.
 *
 * @returns the highest exit code among the films.
 * @throws Failure for a wrong command line, a missing part of the installation, and an interruption.
 */
export async function analyzeFilms(films: readonly string[], options: AnalyzeOptions): Promise<ExitCode> {
  const { requests, lifter } = await setRequests(options, films.length);
  const asked = { ...options, lifterName: options.lifterName ?? lifter ?? undefined };
  refuseBackwardsPart(options);
  await spareFilms(films, { '--output': options.output, '--page': options.page });
  await refuseImpossiblePage(films, options);
  const writer = await openAnswerWriter(options.output, options.force === true);
  const curves = options.curve === undefined ? null : await openCurveFile(options.curve, options);
  const quiet = options.quiet === true;
  const findFfmpeg = await ffmpegWhenNeeded(options);

  const textOf = answerTexts(options, films.length > 1);
  const codes: ExitCode[] = [];
  let lacking: Failure | null = null;
  for (const [index, film] of films.entries()) {
    const request = requests[index]!;
    const progress = progressOf(film, quiet);
    let drawer: PageDrawer | null = null;
    try {
      const measured = await measureFilm(film, findFfmpeg, asked, progress);
      drawer = options.page === undefined ? null : beginPage();
      const analyzed = await scoreFilm(measured, request, asked, progress);
      const { report } = analyzed.analysis;
      writer.add(textOf(report, analyzed.request.exercise.words));
      curves?.add(curveCsv(analyzed.analysis));
      codes.push(exitCodeOfReport(report));
      if (options.page !== undefined && drawer !== null) {
        const { writeSetPage } = await import('./writeSetPage.js');
        await writeSetPage(options.page, analyzed, options, analyzed.details, drawer);
      }
      const kept = await keepSet(analyzed, asked);
      if (kept !== null && !quiet) process.stderr.write(`${kept}\n`);
    } catch (thrown) {
      if (!(thrown instanceof Failure) || thrown.kind === 'interrupted') throw thrown;
      if (thrown.kind === 'installation') {
        // The films to come would lack the same; what was answered so far stays.
        lacking = thrown;
        break;
      }
      const fault = reportFault(thrown, options.debug === true);
      process.stderr.write(fault.text);
      codes.push(fault.exitCode);
    } finally {
      drawer?.close();
    }
  }
  await writer.finish();
  await curves?.finish();
  if (lacking !== null) throw lacking;
  return highestExitCode(codes);
}

function exitCodeOfReport({ quality }: SetReport): ExitCode {
  return quality.usable ? EXIT.answered : EXIT.cannotAnswer;
}

/** The table of angle curves: one header, then the points of film after film. */
async function openCurveFile(path: string, { force }: AnalyzeOptions): Promise<AnswerWriter> {
  const writer = await openAnswerWriter(path, force === true);
  writer.add(CURVE_CSV_HEADER);
  return writer;
}

async function refuseImpossiblePage(
  films: readonly string[],
  { page, force }: AnalyzeOptions,
): Promise<void> {
  if (page === undefined) return;
  if (films.length > 1) {
    throw new Failure(
      'usage',
      '--page shows one film, and several were named.',
      'Make the pages one by one.',
    );
  }
  await refuseUnlessWritable(page, { force: force === true });
}
