import { constants, existsSync } from 'node:fs';
import { access, rm, stat } from 'node:fs/promises';
import { join } from 'node:path';
import { setTimeout as wait } from 'node:timers/promises';
import { Failure } from '../../core/failure.js';
import { writeAside } from '../../core/media/writeAside.js';
import { type ExitCode, highestExitCode } from '../exitCode.js';
import { reportFault } from '../faults.js';
import { interruption } from '../interruption.js';
import { type AnalyzeOptions, analyzeFilms } from '../pipeline/analyzeFilms.js';
import { answerFileOf, changedSince, settledFilms, type WaitingFilm, waitingFilms } from './newFilms.js';

const PLAN_FILE = 'plan.yaml';
/** A phone that syncs writes at least this often; a film that did not change for so long is whole. */
const LOOK_INTERVAL_MILLISECONDS = 5000;

export interface WatchOptions extends Omit<AnalyzeOptions, 'format' | 'output' | 'page'> {
  readonly once?: true | undefined;
}

/**
 * Analyzes the films of a folder one at a time, each once it is wholly there, and writes each answer beside its film.
 * Nothing but those answers tells what is done, so a restart goes on where it ended. A film that fails gets its
 * reason as its answer. A copy that stalled and went on changes its film, which is then looked at again.
 *
 * @returns the highest exit code among the films; ends only with `once` or when interrupted.
 * @throws Failure (usage) where the folder is none; (interrupted) on Ctrl-C.
 */
export async function watchFolder(folder: string, options: WatchOptions): Promise<ExitCode> {
  await refuseUnlessFolder(folder);
  const codes: ExitCode[] = [];
  const note = (text: string) => (options.quiet === true ? undefined : process.stderr.write(`${text}\n`));
  note(`Watching "${folder}" for films.`);
  let before: readonly WaitingFilm[] = await waitingFilms(folder);
  do {
    await wait(LOOK_INTERVAL_MILLISECONDS, undefined, { signal: interruption }).catch(() => undefined);
    interruption.throwIfAborted();
    const now = await waitingFilms(folder);
    for (const film of settledFilms(before, now)) {
      const code = await answerFilm(film.file, folder, options);
      if (await changedSince(film)) {
        await rm(answerFileOf(film.file), { force: true });
        note(`${film.file} changed meanwhile and is looked at again.`);
        continue;
      }
      codes.push(code);
      note(`${film.file} → ${answerFileOf(film.file)}`);
    }
    before = await waitingFilms(folder);
  } while (options.once !== true);
  if (codes.length === 0) note('No film without an answer is there.');
  return highestExitCode(codes);
}

async function answerFilm(file: string, folder: string, options: WatchOptions): Promise<ExitCode> {
  const output = answerFileOf(file);
  const plan = options.plan ?? planOf(folder, options);
  await rm(output, { force: true });
  try {
    const code = await analyzeFilms([file], { ...options, plan, format: 'text', output });
    if (!existsSync(output)) await writeAside(output, 'This film could not be read.\n');
    return code;
  } catch (thrown) {
    if (!(thrown instanceof Failure) || thrown.kind !== 'usage') throw thrown;
    const { exitCode, text } = reportFault(thrown, false);
    await writeAside(output, text);
    return exitCode;
  }
}

/** The plan beside the films, unless the command line states one itself. */
function planOf(folder: string, { tempo, reps, stage, withoutPlan }: WatchOptions): string | undefined {
  const file = join(folder, PLAN_FILE);
  const stated = [tempo, reps, stage, withoutPlan].some((part) => part !== undefined);
  return !stated && existsSync(file) ? file : undefined;
}

async function refuseUnlessFolder(folder: string): Promise<void> {
  const facts = await stat(folder).catch(() => null);
  if (facts?.isDirectory() !== true) {
    throw new Failure('usage', `"${folder}" is no folder.`, 'Name the folder that films arrive in.');
  }
  try {
    // Films are read here and answers written.
    await access(folder, constants.R_OK | constants.W_OK | constants.X_OK);
  } catch (error) {
    throw new Failure(
      'usage',
      `"${folder}" can't be watched: permission denied.`,
      'Allow reading and writing in it, or name another folder.',
      error,
    );
  }
}
