import { checkFilm } from '../../analysis/check/filmCheck.js';
import { findExercise } from '../../analysis/exercises/catalogue.js';
import { Failure } from '../../core/failure.js';
import { readFilmFacts } from '../../core/media/filmFacts.js';
import { locateFfmpeg } from '../../core/media/locateFfmpeg.js';
import { glanceAt } from '../../core/pose/glance.js';
import { knownExercises } from '../exercises/knownExercises.js';
import { EXIT, type ExitCode, highestExitCode } from '../exitCode.js';
import { reportFault } from '../faults.js';
import { interruption } from '../interruption.js';
import { checkScreen } from '../views/terminal/checkScreen.js';
import { styleOf } from '../views/terminal/style.js';

export interface CheckOptions {
  readonly exercise?: string | undefined;
  readonly exerciseFile?: string | undefined;
  readonly format: 'text' | 'json';
  readonly workers?: number | undefined;
  readonly ffmpeg?: string | undefined;
  readonly debug?: boolean | undefined;
}

/**
 * Checks one film after the other.
 *
 * @returns the highest exit code: 4 for a film that can not answer, 3 for one that can't be read.
 * @throws Failure for a wrong command line, a missing part of the installation, and an interruption.
 */
export async function checkFilms(films: readonly string[], options: CheckOptions): Promise<ExitCode> {
  const known = await knownExercises(options.exerciseFile);
  const exercises = options.exercise === undefined ? known : [findExercise(options.exercise, known)];
  const ffmpeg = await locateFfmpeg({ explicitPath: options.ffmpeg });
  if (ffmpeg.warning !== null) process.stderr.write(`${ffmpeg.warning}\n`);
  const codes: ExitCode[] = [];
  for (const file of films) {
    try {
      const film = await readFilmFacts(file, ffmpeg);
      const { looks, brightness } = await glanceAt(film, ffmpeg, {
        workers: options.workers,
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
