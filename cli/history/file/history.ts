import { accessSync, constants, existsSync, mkdirSync, statSync } from 'node:fs';
import path from 'node:path';
import { Failure } from '../../../core/failure.js';
import { backUpRegularly, backupTo, latestBackup } from './backup.js';
import { type Database, openDatabase, openUnwritableDatabase } from './database.js';
import { withHistoryFaults } from './faults.js';
import { migrate, schemaVersion } from './migrate.js';

/** The open history file. The functions of this folder that read and write sets take it. */
export interface History {
  readonly file: string;
  /** A backup made because the file was of an earlier schema; null otherwise. */
  readonly migrationBackup: string | null;
  /** Runs work on the file, its faults turned into Failures of kind `history`. */
  readonly read: <Result>(work: (database: Database) => Result) => Result;
  /** The same in one transaction: all of it is stored, or nothing. */
  readonly write: <Result>(work: (database: Database) => Result) => Result;
  readonly backUp: (target: string) => void;
  readonly close: () => void;
}

/** `writing` creates the file and looks after the regular backup; reading a missing file gives an empty history. */
export type Purpose = 'reading' | 'writing';

/**
 * Opens the history file and brings it up to the schema of this version.
 *
 * @throws Failure of kind `history` when the file cannot be used; it is then left as it was.
 */
export function openHistory(file: string, purpose: Purpose, now: Date = new Date()): History {
  refuseUnreachable(file);
  const missing = !existsSync(file);
  if (missing && purpose === 'writing') makeFolder(file);
  refuseEmptied(file);
  return withHistoryFaults(file, () => {
    const place = missing && purpose === 'reading' ? ':memory:' : file;
    const recognize = (opened: Database) => void schemaVersion(opened, file);
    const database =
      purpose === 'reading' && !missing && mayNotWrite(file)
        ? openUnwritableDatabase(file)
        : openDatabase(place, recognize);
    try {
      const migrationBackup = migrate(database, file, now);
      if (purpose === 'writing' && !missing) backUpRegularly(database, file, now);
      return handle(database, file, migrationBackup);
    } catch (error) {
      database.close();
      throw error;
    }
  });
}

function handle(database: Database, file: string, migrationBackup: string | null): History {
  return {
    file,
    migrationBackup,
    read: (work) => withHistoryFaults(file, () => work(database)),
    write: (work) => withHistoryFaults(file, () => database.transaction(() => work(database))),
    backUp: (target) => withHistoryFaults(file, () => backupTo(database, target)),
    close: () => database.close(),
  };
}

/** Opens the history for one piece of work and closes it whatever happens. */
export function withHistory<Result>(
  file: string,
  purpose: Purpose,
  work: (history: History) => Result,
): Result {
  const history = openHistory(file, purpose);
  try {
    return work(history);
  } finally {
    history.close();
  }
}

/** In a folder that may not be entered a history would look like one that is missing. */
function refuseUnreachable(file: string): void {
  try {
    statSync(file, { throwIfNoEntry: false });
  } catch (error) {
    const code = error instanceof Error && 'code' in error ? error.code : null;
    if (typeof code !== 'string') throw error;
    throw new Failure(
      'history',
      `The history ${file} can't be reached (${code}).`,
      'Allow reading its folder, or choose another file with --history.',
      error,
    );
  }
}

/** A file on a write-protected disk is read as it lies there, unless a log beside it holds part of it. */
function mayNotWrite(file: string): boolean {
  if ((statSync(`${file}-wal`, { throwIfNoEntry: false })?.size ?? 0) > 0) return false;
  try {
    accessSync(file, constants.W_OK);
    accessSync(path.dirname(file), constants.W_OK);
    return false;
  } catch {
    return true;
  }
}

/** SQLite takes an empty file for a new one; beside backups it is a history that lost its content. */
function refuseEmptied(file: string): void {
  const size = (name: string) => statSync(name, { throwIfNoEntry: false })?.size ?? null;
  if (size(file) !== 0 || (size(`${file}-wal`) ?? 0) > 0) return;
  const backup = latestBackup(file);
  if (backup === null) return;
  throw new Failure(
    'history',
    `The history ${file} is empty, but there is a backup of it; nothing was changed.`,
    `tempofilm backup --restore puts the last backup in its place: ${backup}`,
  );
}

function makeFolder(file: string): void {
  try {
    mkdirSync(path.dirname(file), { recursive: true });
  } catch (error) {
    throw new Failure(
      'history',
      `The folder for the history, ${path.dirname(file)}, cannot be made.`,
      'Choose another place with --history or TEMPOFILM_HOME.',
      error,
    );
  }
}
