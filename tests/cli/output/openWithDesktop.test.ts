import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { delimiter, join } from 'node:path';
import { afterEach, describe, expect, it, vi } from 'vitest';
import { openWithDesktop } from '../../../cli/output/openWithDesktop.js';

let folder: string;
afterEach(() => {
  vi.unstubAllEnvs();
  vi.restoreAllMocks();
  rmSync(folder, { recursive: true, force: true });
});

/** What is said where the desktop's opener ends with this code. */
async function saidWith(code: number): Promise<readonly unknown[]> {
  folder = mkdtempSync(join(tmpdir(), 'tempofilm-open-'));
  for (const name of ['xdg-open', 'open']) {
    writeFileSync(join(folder, name), `#!/bin/sh\nexit ${code}\n`, { mode: 0o755 });
  }
  vi.stubEnv('PATH', `${folder}${delimiter}${process.env['PATH']}`);
  const said = vi.spyOn(process.stderr, 'write').mockReturnValue(true);
  await openWithDesktop('set.html');
  return said.mock.calls.map(([text]) => text);
}

describe('opening a page', () => {
  it('is told where nothing could open it', async () => {
    expect(await saidWith(3)).toEqual(['Open set.html in a browser: there is no desktop here that could.\n']);
  });

  it('says nothing where it worked', async () => {
    expect(await saidWith(0)).toEqual([]);
  });
});
