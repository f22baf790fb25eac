import { copyFileSync, existsSync, renameSync } from 'node:fs';
import { Failure } from '../../../core/failure.js';
import { latestBackup } from './backup.js';
import { type History, withHistory } from './history.js';

export interface Restored {
  readonly backup: string;
  readonly sets: number;
  /** Where the file that was replaced now lies; null where there was none. */
  readonly setAside: string | null;
}

/**
 * Puts a backup (the newest unless one is named) in the place of the history file. What was there is set aside under
 * another name, together with its log, which would otherwise be read into the backup.
 *
 * @throws Failure when there is no backup, or it is no history itself.
 */
export function restoreBackup(file: string, named: string | null, now: Date): Restored {
  const backup = named ?? latestBackup(file);
  if (backup === null) throw new Failure('history', `There is no backup of ${file}.`);
  if (!existsSync(backup)) throw new Failure('usage', `There is no file ${backup}.`);
  const unfinished = `${file}.${process.pid}.unfinished`;
  copyFileSync(backup, unfinished);
  const sets = withHistory(unfinished, 'reading', countSets);
  const setAside = existsSync(file) ? `${file}.replaced-${now.toISOString().replaceAll(/[-:.]/g, '')}` : null;
  if (setAside !== null) renameSync(file, setAside);
  for (const log of ['-wal', '-shm']) {
    if (existsSync(file + log)) renameSync(file + log, `${setAside ?? `${file}.replaced`}${log}`);
  }
  renameSync(unfinished, file);
  for (const log of ['-wal', '-shm']) {
    if (existsSync(unfinished + log)) renameSync(unfinished + log, file + log);
  }
  return { backup, sets, setAside };
}

function countSets(history: History): number {
  return history.read((database) => Number(database.get('SELECT count(*) AS sets FROM sets')?.['sets']));
}
