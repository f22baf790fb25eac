import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll } from 'vitest';

/** A folder for one test file that is gone when the file is done. */
export function temporaryHome(): string {
  const folder = mkdtempSync(join(tmpdir(), 'tempofilm-test-'));
  afterAll(() => rmSync(folder, { recursive: true, force: true }));
  return folder;
}
