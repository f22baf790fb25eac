import { mkdtempSync, rmSync, symlinkSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll } from 'vitest';

/** A folder for one test file that is gone when the file is done. */
export function temporaryHome(): string {
  const folder = mkdtempSync(join(tmpdir(), 'tempofilm-test-'));
  afterAll(() => rmSync(folder, { recursive: true, force: true }));
  return folder;
}

/** The same, with the pose tracks that other test files of this run have made, so that no film is read twice. */
export function homeWithSharedTracks(): string {
  const folder = temporaryHome();
  symlinkSync(process.env['TEMPOFILM_TEST_TRACKS']!, join(folder, 'cache'));
  return folder;
}
