import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import path from 'node:path';
import { afterEach } from 'vitest';

/** A history file in a folder of its own that is gone after the test. */
export function temporaryHistory(): () => string {
  const folders: string[] = [];
  afterEach(() => {
    for (const folder of folders.splice(0)) rmSync(folder, { recursive: true, force: true });
  });
  return () => {
    const folder = mkdtempSync(path.join(tmpdir(), 'tempofilm-history-'));
    folders.push(folder);
    return path.join(folder, 'history.sqlite');
  };
}
