import { statSync } from 'node:fs';
import { findExercise } from '../../analysis/exercises/catalogue.js';
import type { Plan } from '../../analysis/plan/plan.js';
import type { BoutReport, SetReport } from '../../analysis/report/setReport.js';
import { Failure } from '../../core/failure.js';
import { knownExercises } from '../exercises/knownExercises.js';
import { withHistory } from '../history/file/history.js';
import { historyFile } from '../history/file/location.js';
import { filmKey } from '../history/sets/filmKey.js';
import { findSet, onlyOne } from '../history/sets/findSet.js';
import { type HistoryEntry, readEntries } from '../history/sets/readEntries.js';
import { readShown } from '../history/sets/readShown.js';
import { NO_DETAILS } from '../history/sets/savedSet.js';
import type { FilmOptions } from '../options/filmOptions.js';
import type { SetOptions } from '../options/setOptions.js';
import { analyzeFilm } from '../pipeline/analyzeFilm.js';
import { ffmpegWhenNeeded } from '../pipeline/ffmpegWhenNeeded.js';
import { progressOf } from '../pipeline/progress.js';
import { recordedAtOf } from '../pipeline/recordedAtOf.js';
import { PROGRAM_VERSION } from '../version.js';
import { type ComparedSet, comparedFilm } from '../views/comparison/comparisonWords.js';

/** A set, or a film, that is to be compared. */
export interface Chosen {
  /** As the user named it. */
  readonly name: string;
  readonly set: ComparedSet;
  readonly report: SetReport;
  /** The side asked for with `12:left`; null for whatever there is. */
  readonly side: BoutReport['side'] | null;
}

/** What is asked of films that are in no saved set. */
export interface FilmQuestion
  extends Pick<SetOptions, 'exercise' | 'exerciseFile' | 'mirrored'>,
    Pick<FilmOptions, 'quality' | 'workers' | 'ffmpeg'> {
  readonly history?: string | undefined;
  readonly quiet?: true | undefined;
}

interface Named {
  readonly name: string;
  readonly target: string;
  readonly side: Chosen['side'];
}

/**
 * The two sets a user means. A film that is in no saved set is measured for the comparison alone, for the exercise of
 * the other set or the one that is named, and is not saved.
 *
 * @returns null, with the reason on standard error, where such a film cannot answer.
 * @throws Failure of kind `usage` when a set is not there, or it is not clear which exercise a film shows.
 */
export async function chooseSets(
  first: string,
  second: string,
  question: FilmQuestion,
): Promise<readonly [Chosen, Chosen] | null> {
  const [one, other] = [namedOf(first), namedOf(second)];
  const saved = [await savedSet(one, question), await savedSet(other, question)] as const;
  const model = saved[0]?.report ?? saved[1]?.report ?? null;
  const chosenFirst = saved[0] ?? (await measuredFilm(one, model, question));
  if (chosenFirst === null) return null;
  const chosenSecond = saved[1] ?? (await measuredFilm(other, model ?? chosenFirst.report, question));
  return chosenSecond === null ? null : [chosenFirst, chosenSecond];
}

function namedOf(name: string): Named {
  const match = /^(.+):(left|right|both)$/.exec(name);
  return { name, target: match?.[1] ?? name, side: (match?.[2] as Chosen['side'] | undefined) ?? null };
}

/** The saved set; null for a film that is there but in no saved set. */
async function savedSet({ name, target, side }: Named, question: FilmQuestion): Promise<Chosen | null> {
  const isFilm = statSync(target, { throwIfNoEntry: false })?.isFile() === true;
  const key = isFilm ? await filmKey(target) : null;
  return withHistory(historyFile(question.history), 'reading', (history) => {
    const set =
      key === null
        ? findSet(history, { name: target, key })
        : setOfFilm(readEntries(history), key, target, question);
    return set === null ? null : { name, set, report: readShown(history, set.id).report, side };
  });
}

/** A film is known again by what is in it, under whatever name. */
function setOfFilm(
  entries: readonly HistoryEntry[],
  key: string,
  film: string,
  { exercise }: FilmQuestion,
): HistoryEntry | null {
  const found = entries.filter(
    (entry) => entry.filmKey === key && (exercise === undefined || entry.exercise.id === exercise),
  );
  return onlyOne(found, film);
}

/** @param model the other set: its exercise is asked of the film, and its plan tells the stages of the set apart. */
async function measuredFilm(
  { name, target, side }: Named,
  model: SetReport | null,
  question: FilmQuestion,
): Promise<Chosen | null> {
  const exercises = await knownExercises(question.exerciseFile);
  const id = question.exercise ?? model?.exercise.id;
  if (id === undefined) {
    throw new Failure(
      'usage',
      'Which exercise do the films show?',
      'Neither is in a saved set: add --exercise with one of the names that `tempofilm exercises` lists.',
    );
  }
  const findFfmpeg = await ffmpegWhenNeeded(question);
  const { film, analysis } = await analyzeFilm(
    target,
    findFfmpeg,
    {
      exercise: findExercise(id, exercises),
      exerciseChosenBy: 'user',
      plan: planLike(model),
      side: null,
      mirrored: question.mirrored === true,
      programVersion: PROGRAM_VERSION,
    },
    question,
    progressOf(target, question.quiet === true),
  );
  const { report } = analysis;
  if (!report.quality.usable) {
    process.stderr.write(`${target}: ${report.headline}\nNothing was compared.\n`);
    return null;
  }
  const about = { recordedAt: await recordedAtOf(film), details: NO_DETAILS };
  return { name, set: comparedFilm(report, about), report, side };
}

/** An absent `partials` may stand as undefined in a parsed report. */
function planLike(model: SetReport | null): Plan | null {
  return (model?.plan ?? null) as Plan | null;
}
