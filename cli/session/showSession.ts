import { parseSessionPlan } from '../../analysis/plan/sessionPlan.js';
import type { SetReport } from '../../analysis/report/setReport.js';
import { matchFilms } from '../../analysis/session/matchFilms.js';
import { restsBetweenFilms, type TimedFilm } from '../../analysis/session/restBetweenFilms.js';
import { plannedPause, sessionSlots } from '../../analysis/session/sessionSlots.js';
import { refuseUnlessWritable } from '../../core/media/writeAside.js';
import { knownExercises } from '../exercises/knownExercises.js';
import { type ExitCode, exitCodeOf, highestExitCode } from '../exitCode.js';
import { withHistory } from '../history/file/history.js';
import { historyFile } from '../history/file/location.js';
import { type HistoryEntry, readEntries } from '../history/sets/readEntries.js';
import type { FilmOptions } from '../options/filmOptions.js';
import { readTextFile } from '../options/readTextFile.js';
import { writePage } from '../output/writePage.js';
import { ffmpegWhenNeeded } from '../pipeline/ffmpegWhenNeeded.js';
import { sessionJson } from '../views/session/sessionJson.js';
import { sessionScreen } from '../views/session/sessionScreen.js';
import { styleOf } from '../views/terminal/style.js';
import { answerFilm, type FilmAnswer } from './answerFilm.js';
import { filmsInOrder, type SessionFilm } from './filmsInOrder.js';
import { sessionFilms } from './sessionFilms.js';
import {
  SESSION_SCHEMA_ID,
  type SessionReport,
  sessionSet,
  setOfLastTime,
  unreadFilm,
} from './sessionReport.js';

export interface SessionOptions extends Pick<FilmOptions, 'quality' | 'workers' | 'accelerator' | 'ffmpeg'> {
  readonly plan: string;
  readonly exerciseFile?: string | undefined;
  readonly format: 'text' | 'json';
  readonly page?: string | undefined;
  readonly force?: true | undefined;
  readonly save?: boolean | undefined;
  readonly quiet?: true | undefined;
  readonly history?: string | undefined;
}

/** `tempofilm session`: the films of one workout against its plan, a line a set. */
export async function showSession(named: readonly string[], options: SessionOptions): Promise<ExitCode> {
  const exercises = await knownExercises(options.exerciseFile);
  const plan = parseSessionPlan(await readTextFile(options.plan, 'plan'), options.plan, exercises);
  if (options.page !== undefined) await refuseUnlessWritable(options.page, { force: options.force === true });
  const findFfmpeg = await ffmpegWhenNeeded(options);
  const { films, unread, orderIsRecorded } = await filmsInOrder(sessionFilms(named), findFfmpeg, options);
  const match = matchFilms(films, sessionSlots(plan, exercises), exercises);
  const earlier = withHistory(historyFile(options.history), 'reading', readEntries).filter(isOf(plan.lifter));
  const answers: FilmAnswer[] = [];
  for (const { film, slot } of match.films) {
    answers.push(
      await answerFilm(film.file, slot, findFfmpeg, { ...options, lifterName: plan.lifter ?? undefined }),
    );
  }

  const rests = restsBetweenFilms(films.map((film, index) => timedFilm(film, answers[index]!.report)));
  const report: SessionReport = {
    schema: SESSION_SCHEMA_ID,
    name: plan.name,
    lifter: plan.lifter,
    orderIsRecorded,
    sets: [
      ...match.films.map(({ film, slot }, index) =>
        sessionSet({
          film: film.file,
          slot,
          report: answers[index]!.report,
          fault: answers[index]!.fault,
          restBefore: rests[index - 1] ?? null,
          plannedPause: plannedPause(match.films[index - 1]?.slot ?? null, slot),
          lastTime: slot === null ? null : setOfLastTime(earlier, slot, films[0]!.recordedMilliseconds),
        }),
      ),
      ...unread.map(({ file, failure }) => unreadFilm(file, failure.message)),
    ],
    missing: match.missing,
  };
  if (options.page !== undefined) {
    const { sessionPage } = await import('../views/page/sessionPage.js');
    await writePage(options.page, sessionPage(report), options.force === true);
  }
  process.stdout.write(
    options.format === 'json'
      ? `${JSON.stringify(sessionJson(report))}\n`
      : sessionScreen(report, styleOf(process.stdout)),
  );
  return highestExitCode([
    ...answers.map((answer) => answer.code),
    ...unread.map(({ failure }) => exitCodeOf(failure.kind)),
  ]);
}

/** Sets without a name belong to whoever uses this machine alone. */
function isOf(lifter: string | null): (entry: HistoryEntry) => boolean {
  const name = lifter?.toLowerCase() ?? null;
  return ({ details }) => (details.lifter?.toLowerCase() ?? null) === name;
}

function timedFilm({ facts }: SessionFilm, report: SetReport | null): TimedFilm {
  const bouts = report?.bouts ?? [];
  return {
    stampedSeconds: facts.recordedAt === null ? null : Date.parse(facts.recordedAt) / 1000,
    durationSeconds: facts.durationSeconds / facts.slowMotionFactor,
    firstMoveSeconds: bouts.length === 0 ? null : Math.min(...bouts.map((bout) => bout.startSeconds)),
    lastMoveSeconds: bouts.length === 0 ? null : Math.max(...bouts.map((bout) => bout.endSeconds)),
  };
}
