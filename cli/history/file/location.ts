import { statSync } from 'node:fs';
import path from 'node:path';
import { dataFolder, type Surroundings } from '../../folders.js';

const FILE_NAME = 'history.sqlite';

/** The history file: the one named by `--history` (a folder means the usual name inside it), else the usual one. */
export function historyFile(named: string | undefined, surroundings?: Surroundings): string {
  if (named === undefined) return path.join(dataFolder(surroundings), FILE_NAME);
  const resolved = path.resolve(named);
  const isFolder = statSync(resolved, { throwIfNoEntry: false })?.isDirectory() ?? false;
  return isFolder ? path.join(resolved, FILE_NAME) : resolved;
}

/** Backups lie in a folder beside the history file. */
export function backupFolder(file: string): string {
  return path.join(path.dirname(file), 'backups');
}
