import { Failure } from '../../../core/failure.js';
import { latestBackup } from './backup.js';
import { DatabaseFault } from './database.js';

/** Runs work on the history file; a fault of the file comes out as a Failure that says what to do. */
export function withHistoryFaults<Result>(file: string, work: () => Result): Result {
  try {
    return work();
  } catch (error) {
    throw error instanceof DatabaseFault ? historyFailure(file, error) : error;
  }
}

/** What a user can do about a fault of the history file. Anything unlisted is a bug and stays one. */
function historyFailure(file: string, fault: DatabaseFault): Error {
  const kind = fault.code.split('_').slice(0, 2).join('_');
  switch (kind) {
    case 'SQLITE_FULL':
      return failure(
        fault,
        `No space left to write the history ${file}; nothing was changed.`,
        'Free some space and run the command again.',
      );
    case 'SQLITE_READONLY':
      return failure(
        fault,
        `The history ${file} may not be written; nothing was changed.`,
        'Allow writing to the file and its folder, or choose another with --history.',
      );
    case 'SQLITE_CORRUPT':
    case 'SQLITE_NOTADB':
      return failure(
        fault,
        `The history ${file} is damaged or is no history; nothing was changed.`,
        restoreAdvice(file),
      );
    case 'SQLITE_BUSY':
    case 'SQLITE_LOCKED':
      return failure(
        fault,
        `Another program is holding the history ${file}; nothing was changed.`,
        'Wait until it is done and run the command again.',
      );
    case 'SQLITE_CANTOPEN':
      return failure(
        fault,
        `The history ${file} cannot be opened.`,
        'Check that the folder exists and may be written, or choose another file with --history.',
      );
    case 'SQLITE_IOERR':
      return failure(
        fault,
        `The disk failed while the history ${file} was in use (${fault.code}); nothing was changed.`,
        'Check the disk and its free space, then run the command again.',
      );
    default:
      return fault;
  }
}

function failure(cause: DatabaseFault, message: string, remedy: string): Failure {
  return new Failure('history', message, remedy, cause);
}

function restoreAdvice(file: string): string {
  const backup = latestBackup(file);
  return backup === null
    ? 'There is no backup beside it. Move the file away to start a new history, or choose another with --history.'
    : `tempofilm backup --restore puts the last backup in its place and sets this file aside: ${backup}`;
}
