import path from 'node:path';
import { backupPath } from '../history/file/backup.js';
import { openHistory } from '../history/file/history.js';
import { historyFile } from '../history/file/location.js';
import { restoreBackup } from '../history/file/restore.js';

export interface BackupOptions {
  readonly restore?: string | true | undefined;
  readonly history?: string | undefined;
}

/** `tempofilm backup`: a copy of the whole history, checked, beside it or where it is wanted; or a copy put back. */
export function backUp(target: string | null, options: BackupOptions): void {
  const file = historyFile(options.history);
  if (options.restore !== undefined) {
    const restored = restoreBackup(
      file,
      options.restore === true ? null : path.resolve(options.restore),
      new Date(),
    );
    const aside = restored.setAside === null ? '' : ` What was there is now ${restored.setAside}.`;
    process.stdout.write(`The history has ${restored.sets} sets again, from ${restored.backup}.${aside}\n`);
    return;
  }
  const history = openHistory(file, 'reading');
  try {
    const copy = target === null ? backupPath(file, 'asked', new Date()) : path.resolve(target);
    history.backUp(copy);
    process.stdout.write(`Backed up to ${copy}\n`);
  } finally {
    history.close();
  }
}
