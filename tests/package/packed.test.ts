import { execFile } from 'node:child_process';
import { fileURLToPath } from 'node:url';
import { promisify } from 'node:util';
import { beforeAll, describe, expect, it, vi } from 'vitest';
import { WEIGHT_FILES } from '../../core/pose/weights.js';
import packageFile from '../../package.json' with { type: 'json' };

vi.setConfig({ testTimeout: 120_000, hookTimeout: 120_000 });

interface Packed {
  readonly files: readonly { readonly path: string }[];
  readonly unpackedSize: number;
}

/** What `npm pack` would put into the file, without building or writing anything. */
async function packed(): Promise<Packed> {
  const { stdout } = await promisify(execFile)('npm', ['pack', '--dry-run', '--json', '--ignore-scripts'], {
    cwd: fileURLToPath(new URL('../..', import.meta.url)),
    maxBuffer: 64 * 1024 * 1024,
  });
  const read = JSON.parse(stdout) as readonly Packed[] | Readonly<Record<string, Packed>>;
  return Object.values(read)[0]!;
}

describe('the package', () => {
  let paths: readonly string[] = [];
  let bytes = 0;
  beforeAll(async () => {
    const { files, unpackedSize } = await packed();
    paths = files.map(({ path }) => path);
    bytes = unpackedSize;
  });

  it('holds the command and every file that inference reads', () => {
    expect(paths).toContain(packageFile.bin.tempofilm);
    for (const name of Object.keys(WEIGHT_FILES)) expect(paths).toContain(`dist/weights/${name}`);
  });

  it('holds its licences and what a user reads', () => {
    for (const path of ['LICENSE', 'NOTICE', 'README.md', 'CHANGELOG.md']) expect(paths).toContain(path);
  });

  it('leaves out tests, fixtures, films and sources, and stays small', () => {
    expect(paths.filter((path) => /^(?:dist\/)?(?:fixtures|tests)\//.test(path))).toEqual([]);
    expect(paths.filter((path) => /\.(?:mp4|png|ts|map)$/.test(path))).toEqual([]);
    expect(bytes).toBeLessThan(60e6);
  });

  it('needs no compiler: nothing of it is built where it is installed', () => {
    const hooks = ['preinstall', 'install', 'postinstall'];
    expect(Object.keys(packageFile.scripts).filter((name) => hooks.includes(name))).toEqual([]);
  });
});
