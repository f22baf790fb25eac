import { readFileSync, statSync } from 'node:fs';
import path from 'node:path';
import type { SetRequest } from '../../../analysis/analyzeSet.js';
import { findExercise } from '../../../analysis/exercises/catalogue.js';
import { plannedLoads } from '../../../analysis/plan/plannedLoads.js';
import { parseSessionPlan, type SessionPlan } from '../../../analysis/plan/sessionPlan.js';
import type { SetReport } from '../../../analysis/report/setReport.js';
import { restsBetweenFilms } from '../../../analysis/session/restBetweenFilms.js';
import { matchFilms, type SessionSlot, sessionSlots } from '../../../analysis/session/sessionSlots.js';
import { Failure } from '../../../core/failure.js';
import type { FilmFacts } from '../../../core/media/film.js';
import { type Ffmpeg, locateFfmpeg } from '../../../core/media/locateFfmpeg.js';
import { EXIT, type ExitCode, exitCodeOf, highestExitCode } from '../../exitCode.js';
import type { FilmOptions } from '../../options/filmOptions.js';
import { analyzeFilm } from '../../pipeline/analyzeFilm.js';
import { keepSet } from '../../pipeline/keepSet.js';
import { openFilm } from '../../pipeline/openFilm.js';
import { progressOf } from '../../pipeline/progress.js';
import { PROGRAM_VERSION } from '../../version.js';
import { sessionJson } from '../../views/history/sessionJson.js';
import { sessionScreen } from '../../views/history/sessionScreen.js';
import { styleOf } from '../../views/terminal/style.js';
import { withHistory } from '../history.js';
import { historyFile } from '../location.js';
import { readEntries } from '../readSets.js';
import { sessionFilms } from '../session/sessionFilms.js';
import {
  SESSION_SCHEMA_ID,
  type SessionReport,
  sessionSet,
  setOfLastTime,
} from '../session/sessionReport.js';

export interface SessionOptions extends Pick<FilmOptions, 'quality' | 'workers' | 'ffmpeg'> {
  readonly plan: string;
  readonly format: 'text' | 'json';
  readonly save?: boolean | undefined;
  readonly quiet?: true | undefined;
  readonly history?: string | undefined;
}

/** `tempofilm session`: the films of one workout against its plan, a line a set. */
export async function showSession(named: readonly string[], options: SessionOptions): Promise<ExitCode> {
  const plan = readPlan(options.plan);
  const ffmpeg = await locateFfmpeg({ explicitPath: options.ffmpeg });
  const films = await filmsInOrder(sessionFilms(named), ffmpeg, options);
  const match = matchFilms(films, sessionSlots(plan));
  const earlier = withHistory(historyFile(options.history), 'reading', (history) =>
    readEntries(history, { lifter: plan.lifter }),
  );
  const answers: Answer[] = [];
  for (const { film, slot } of match.films)
    answers.push(await answerOf(film.facts, slot, plan, ffmpeg, options));

  const rests = restsBetweenFilms(films.map((film, index) => timedFilm(film, answers[index]!.report)));
  const start = films[0]!.recordedMilliseconds;
  const report: SessionReport = {
    schema: SESSION_SCHEMA_ID,
    name: plan.name,
    lifter: plan.lifter,
    sets: match.films.map(({ film, slot }, index) =>
      sessionSet({
        film: film.facts.file,
        slot,
        report: answers[index]!.report,
        fault: answers[index]!.fault,
        restBefore: rests[index - 1] ?? null,
        plannedRestSeconds: match.films[index - 1]?.slot?.planned.plan.restSeconds ?? null,
        lastTime:
          slot === null ? null : setOfLastTime(earlier, slot.planned.exerciseId, slot.setNumber, start),
      }),
    ),
    missing: match.missing,
  };
  process.stdout.write(
    options.format === 'json'
      ? `${JSON.stringify(sessionJson(report))}\n`
      : sessionScreen(report, styleOf(process.stdout)),
  );
  return highestExitCode(answers.map((answer) => answer.code));
}

interface SessionFilm {
  readonly name: string;
  readonly facts: FilmFacts;
  readonly recordedMilliseconds: number;
}

interface Answer {
  readonly report: SetReport | null;
  readonly fault: string | null;
  readonly code: ExitCode;
}

function readPlan(file: string): SessionPlan {
  try {
    return parseSessionPlan(readFileSync(file, 'utf8'), file);
  } catch (error) {
    if (error instanceof Failure) throw error;
    throw new Failure(
      'usage',
      `The plan ${file} cannot be read.`,
      'Name a file with the plan of the session.',
      error,
    );
  }
}

/** Films without a time of their own are sorted by the date of their file. */
async function filmsInOrder(
  files: readonly string[],
  ffmpeg: Ffmpeg,
  options: SessionOptions,
): Promise<readonly SessionFilm[]> {
  const films: SessionFilm[] = [];
  for (const file of files) {
    const facts = await openFilm(file, ffmpeg, options);
    const recordedMilliseconds =
      facts.recordedAt === null ? statSync(file).mtimeMs : Date.parse(facts.recordedAt);
    films.push({ name: path.basename(file), facts, recordedMilliseconds });
  }
  return films.sort(
    (one, other) =>
      one.recordedMilliseconds - other.recordedMilliseconds || one.name.localeCompare(other.name),
  );
}

/** What goes wrong with one film does not keep the others from being answered. */
async function answerOf(
  film: FilmFacts,
  slot: SessionSlot | null,
  plan: SessionPlan,
  ffmpeg: Ffmpeg,
  options: SessionOptions,
): Promise<Answer> {
  if (slot === null)
    return { report: null, fault: 'The plan has no set left for this film.', code: EXIT.answered };
  const request = requestOf(slot);
  const quiet = options.quiet === true;
  try {
    const analyzed = await analyzeFilm(film.file, ffmpeg, request, options, progressOf(film.file, quiet));
    const kept = await keepSet(analyzed, request, {
      save: options.save,
      history: options.history,
      ...(plan.lifter === null ? {} : { lifterName: plan.lifter }),
    });
    if (kept !== null && !quiet) process.stderr.write(`${film.file}: ${kept}\n`);
    const { report } = analyzed.analysis;
    return { report, fault: null, code: report.quality.usable ? EXIT.answered : EXIT.cannotAnswer };
  } catch (error) {
    if (!(error instanceof Failure) || error.kind === 'interrupted') throw error;
    return { report: null, fault: error.message, code: exitCodeOf(error.kind) };
  }
}

function requestOf({ planned }: SessionSlot): SetRequest {
  return {
    exercise: findExercise(planned.exerciseId),
    exerciseChosenBy: 'user',
    plan: {
      stages: planned.plan.stages.map(({ load: _load, ...stage }) => stage),
      restSeconds: planned.plan.restSeconds,
    },
    side: null,
    mirrored: false,
    ...plannedLoads(planned),
    programVersion: PROGRAM_VERSION,
  };
}

function timedFilm({ facts }: SessionFilm, report: SetReport | null) {
  const bouts = report?.bouts ?? [];
  return {
    stampedSeconds: facts.recordedAt === null ? null : Date.parse(facts.recordedAt) / 1000,
    durationSeconds: facts.durationSeconds / facts.slowMotionFactor,
    firstMoveSeconds: bouts.length === 0 ? null : Math.min(...bouts.map((bout) => bout.startSeconds)),
    lastMoveSeconds: bouts.length === 0 ? null : Math.max(...bouts.map((bout) => bout.endSeconds)),
  };
}
