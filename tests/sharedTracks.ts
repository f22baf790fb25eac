import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';

/** Makes the folder in which the test files of one run share the pose tracks of the demo films. */
export default function setup(): () => void {
  const folder = mkdtempSync(join(tmpdir(), 'tempofilm-tracks-'));
  process.env['TEMPOFILM_TEST_TRACKS'] = folder;
  return () => rmSync(folder, { recursive: true, force: true });
}
