import type { FailureKind } from '../core/failure.js';

/** The documented exit codes of the command. */
export const EXIT = {
  answered: 0,
  unexpectedFault: 1,
  wrongUsage: 2,
  unreadableFilm: 3,
  cannotAnswer: 4,
  historyFault: 5,
  incompleteInstallation: 6,
  interrupted: 130,
} as const;

export type ExitCode = (typeof EXIT)[keyof typeof EXIT];

const CODE_OF_FAILURE: Record<FailureKind, ExitCode> = {
  usage: EXIT.wrongUsage,
  film: EXIT.unreadableFilm,
  history: EXIT.historyFault,
  installation: EXIT.incompleteInstallation,
  interrupted: EXIT.interrupted,
};

/** The exit code that a fault of this kind ends the command with. */
export function exitCodeOf(kind: FailureKind): ExitCode {
  return CODE_OF_FAILURE[kind];
}

/** The exit code of several films: the highest of theirs; 0 for none. */
export function highestExitCode(codes: readonly ExitCode[]): ExitCode {
  return [...codes].sort((one, other) => other - one)[0] ?? EXIT.answered;
}
