import { rmSync } from 'node:fs';
import { mkdtemp, rm } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { onEarlyExit } from './cleanUp.js';

/**
 * Gives `work` a folder only this user can read (mode 0700) and removes it with all it holds on every way out:
 * result, exception, `process.exit`, SIGINT, SIGTERM.
 */
export async function withTemporaryFolder<Result>(
  work: (folder: string) => Promise<Result>,
): Promise<Result> {
  const folder = await mkdtemp(join(tmpdir(), 'tempofilm-'));
  const forget = onEarlyExit(() => rmSync(folder, { recursive: true, force: true }));
  try {
    return await work(folder);
  } finally {
    await rm(folder, { recursive: true, force: true });
    forget();
  }
}
