import {
  closeSync,
  existsSync,
  fsyncSync,
  mkdirSync,
  openSync,
  readdirSync,
  renameSync,
  rmSync,
  statSync,
} from 'node:fs';
import path from 'node:path';
import { Failure } from '../../../core/failure.js';
import type { Database } from './database.js';
import { backupFolder } from './location.js';

const REGULAR_BACKUP_DAYS = 7;
const REGULAR_BACKUPS_KEPT = 2;
const REGULAR = 'regular';

/**
 * Copies the whole history into `target` as one compact file, complete and on the disk before it gets its name.
 *
 * @throws Failure of kind `usage` when `target` exists, of kind `history` when its folder cannot be made.
 */
export function backupTo(database: Database, target: string): void {
  if (existsSync(target))
    throw new Failure('usage', `${target} exists already.`, 'Choose another name for the backup.');
  makeFolder(path.dirname(target));
  const unfinished = `${target}.${process.pid}.unfinished`;
  rmSync(unfinished, { force: true });
  try {
    database.run('VACUUM INTO ?', [unfinished]);
    flush(unfinished);
    renameSync(unfinished, target);
  } finally {
    rmSync(unfinished, { force: true });
  }
}

/** Path for a backup made now: named by its reason and the time, so that names sort by age. */
export function backupPath(file: string, reason: string, now: Date): string {
  const stamp = now.toISOString().replaceAll(/[-:]/g, '').replace('.', '');
  return path.join(backupFolder(file), `${path.basename(file, '.sqlite')}-${stamp}-${reason}.sqlite`);
}

/** The newest backup beside the history file, or null. */
export function latestBackup(file: string): string | null {
  return backups(file).at(-1) ?? null;
}

/** Makes a backup when the last one of any kind is a week old, and lets go of regular ones beyond the newest two. */
export function backUpRegularly(database: Database, file: string, now: Date): void {
  const latest = latestBackup(file);
  if (latest !== null && ageDays(latest, now) < REGULAR_BACKUP_DAYS) return;
  backupTo(database, backupPath(file, REGULAR, now));
  const regular = backups(file).filter((backup) => backup.endsWith(`-${REGULAR}.sqlite`));
  for (const surplus of regular.slice(0, -REGULAR_BACKUPS_KEPT)) rmSync(surplus, { force: true });
}

function backups(file: string): readonly string[] {
  const folder = backupFolder(file);
  const start = `${path.basename(file, '.sqlite')}-`;
  if (!existsSync(folder)) return [];
  return readdirSync(folder)
    .filter((name) => name.startsWith(start) && name.endsWith('.sqlite'))
    .sort()
    .map((name) => path.join(folder, name));
}

function ageDays(file: string, now: Date): number {
  return (now.getTime() - statSync(file).mtimeMs) / 86_400_000;
}

function makeFolder(folder: string): void {
  try {
    mkdirSync(folder, { recursive: true });
  } catch (error) {
    throw new Failure(
      'history',
      `The folder for the backup, ${folder}, cannot be made; nothing was changed.`,
      'Name a place that may be written: tempofilm backup <file>.',
      error,
    );
  }
}

function flush(file: string): void {
  const descriptor = openSync(file, 'r+');
  try {
    fsyncSync(descriptor);
  } finally {
    closeSync(descriptor);
  }
}
