import type { SetRequest } from '../../analysis/analyzeSet.js';
import { plannedLoads } from '../../analysis/plan/plannedLoads.js';
import type { SetReport } from '../../analysis/report/setReport.js';
import type { SessionSlot } from '../../analysis/session/sessionSlots.js';
import { Failure } from '../../core/failure.js';
import { EXIT, type ExitCode, exitCodeOf } from '../exitCode.js';
import type { FilmOptions } from '../options/filmOptions.js';
import { analyzeFilm } from '../pipeline/analyzeFilm.js';
import type { FindFfmpeg } from '../pipeline/ffmpegWhenNeeded.js';
import { type KeepOptions, keepSet } from '../pipeline/keepSet.js';
import { progressOf } from '../pipeline/progress.js';
import { PROGRAM_VERSION } from '../version.js';

/** What a film of a workout says about its planned set. */
export interface FilmAnswer {
  /** Null where there is none; then `fault` says why. */
  readonly report: SetReport | null;
  readonly fault: string | null;
  readonly code: ExitCode;
}

/** What the answer to one film of a workout depends on beside its planned set. */
export interface AnswerOptions extends FilmOptions, Pick<KeepOptions, 'save' | 'history' | 'lifterName'> {
  readonly quiet?: true | undefined;
}

/**
 * Analyzes a film for its planned set and keeps it. What goes wrong with one film does not keep the others from
 * being answered.
 *
 * @throws Failure of kind `interrupted`.
 */
export async function answerFilm(
  file: string,
  slot: SessionSlot | null,
  findFfmpeg: FindFfmpeg,
  options: AnswerOptions,
): Promise<FilmAnswer> {
  if (slot === null) return { report: null, fault: 'The plan has no set for it.', code: EXIT.answered };
  const request = requestOf(slot);
  const quiet = options.quiet === true;
  try {
    const analyzed = await analyzeFilm(file, findFfmpeg, request, options, progressOf(file, quiet));
    const kept = await keepSet(analyzed, options);
    if (kept !== null && !quiet) process.stderr.write(`${file}: ${kept}\n`);
    const { report } = analyzed.analysis;
    return { report, fault: null, code: report.quality.usable ? EXIT.answered : EXIT.cannotAnswer };
  } catch (thrown) {
    if (!(thrown instanceof Failure) || thrown.kind === 'interrupted') throw thrown;
    return { report: null, fault: thrown.message, code: exitCodeOf(thrown.kind) };
  }
}

function requestOf({ planned, exercise }: SessionSlot): SetRequest {
  return {
    exercise,
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
