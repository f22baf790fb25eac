import type { SetRequest } from '../../analysis/analyzeSet.js';
import { CATALOGUE, findExercise } from '../../analysis/exercises/catalogue.js';
import { parseLoad } from '../../analysis/plan/load.js';
import { Failure } from '../../core/failure.js';
import type { SetOptions } from '../options/setOptions.js';
import { PROGRAM_VERSION } from '../version.js';
import { planOfOptions } from './planOfOptions.js';

/**
 * What the user asks to know about a set, read from the command line before any film is opened.
 *
 * @throws Failure (usage) where the exercise is unknown or not named, or plan or load can't be read.
 */
export function setRequest(options: SetOptions): SetRequest {
  if (options.exercise === undefined) {
    throw new Failure(
      'usage',
      'Which exercise does the film show?',
      'Add --exercise with one of the names that `tempofilm exercises` lists.',
    );
  }
  return {
    exercise: findExercise(options.exercise, CATALOGUE),
    exerciseChosenBy: 'user',
    plan: planOfOptions(options),
    side: options.side ?? null,
    mirrored: options.mirrored === true,
    baselineRangeDegrees: null,
    load: options.load === undefined ? null : parseLoad(options.load),
    programVersion: PROGRAM_VERSION,
    ...(options.tolerance === undefined ? {} : { tolerance: { seconds: options.tolerance, share: 0 } }),
  };
}
