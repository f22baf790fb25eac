import { checkFilm } from '../../analysis/check/filmCheck.js';
import { findExercise } from '../../analysis/exercises/catalogue.js';
import { Failure } from '../../core/failure.js';
import { glanceAt } from '../../core/pose/glance.js';
import { knownExercises } from '../exercises/knownExercises.js';
import { EXIT, type ExitCode, highestExitCode } from '../exitCode.js';
import { reportFault } from '../faults.js';
import { interruption } from '../interruption.js';
import { checkScreen } from '../views/terminal/checkScreen.js';
import { styleOf } from '../views/terminal/style.js';
import { ffmpegWhenNeeded } from './ffmpegWhenNeeded.js';
import { filmFactsOf } from './filmFactsOf.js';

export interface CheckOptions {
  readonly exercise?: string | undefined;
  readonly exerciseFile?: string | undefined;
  readonly format: 'text' | 'json';
  readonly workers?: number | undefined;
  readonly ffmpeg?: string | undefined;
  readonly debug?: boolean | undefined;
}

/** Loading the networks takes a worker longer than looking at all the pictures: a second one is not worth it. */
const WORKERS = 1;

/**
 * Checks one film after the other.
 *
 * @returns the highest exit code: 4 for a film that can not answer, 3 for one that can't be read.
 * @throws Failure for a wrong command line, a missing part of the installation, and an interruption.
 */
export async function checkFilms(films: readonly string[], options: CheckOptions): Promise<ExitCode> {
  const known = await knownExercises(options.exerciseFile);
  const exercises = options.exercise === undefined ? known : [findExercise(options.exercise, known)];
  const findFfmpeg = await ffmpegWhenNeeded(options);
  const ffmpeg = await findFfmpeg();
  const codes: ExitCode[] = [];
  for (const file of films) {
    try {
      const film = await filmFactsOf(file, findFfmpeg, options);
      const { looks, brightness } = await glanceAt(film, ffmpeg, {
        workers: options.workers ?? WORKERS,
        signal: interruption,
      });
      const check = checkFilm(film, looks, brightness, exercises);
      const text =
        options.format === 'json'
          ? JSON.stringify(check, null, films.length > 1 ? 0 : 2)
          : checkScreen(check, styleOf(process.stdout));
      process.stdout.write(`${text}\n`);
      codes.push(check.usable ? EXIT.answered : EXIT.cannotAnswer);
    } catch (thrown) {
      if (!(thrown instanceof Failure) || thrown.kind !== 'film') throw thrown;
      const fault = reportFault(thrown, options.debug === true);
      process.stderr.write(fault.text);
      codes.push(fault.exitCode);
    }
  }
  return highestExitCode(codes);
}
