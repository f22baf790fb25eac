import { readdirSync, readFileSync } from 'node:fs';
import { builtinModules } from 'node:module';
import { dirname, join, relative, resolve } from 'node:path';
import { fileURLToPath } from 'node:url';
import { describe, expect, it } from 'vitest';

const ROOT = resolve(dirname(fileURLToPath(import.meta.url)), '../..');
const FOLDERS = ['core', 'analysis', 'cli', 'fixtures'] as const;
type Folder = (typeof FOLDERS)[number];

/** Which of the project's folders each may import from. */
const MAY_IMPORT: Record<Folder, readonly Folder[]> = {
  core: ['core'],
  analysis: ['analysis', 'core'],
  cli: ['cli', 'analysis', 'core'],
  fixtures: ['fixtures', 'analysis', 'core'],
};

interface Import {
  readonly file: string;
  readonly target: string;
  readonly typesOnly: boolean;
}

function sourcesOf(folder: string): string[] {
  return readdirSync(join(ROOT, folder), { recursive: true, withFileTypes: true })
    .filter((entry) => entry.isFile() && entry.name.endsWith('.ts'))
    .map((entry) => relative(ROOT, join(entry.parentPath, entry.name)));
}

/** Static and dynamic imports, and workers started from another file. */
const IMPORT = /(?:\bfrom\s+|\bimport\s*\(\s*|\bimport\s+|new URL\(\s*)['"]([^'"]+)['"]/g;

function importsOf(file: string): Import[] {
  const text = readFileSync(join(ROOT, file), 'utf8');
  const typesOnly = /(?:import|export) type [^;]*?from ['"]([^'"]+)['"]/g;
  const types = new Set([...text.matchAll(typesOnly)].map((match) => match[1]!));
  return [...text.matchAll(IMPORT)].map((match) => {
    const target = match[1]!;
    return { file, target, typesOnly: types.has(target) };
  });
}

function folderOf(path: string): string {
  return path.split('/')[0]!;
}

const everyImport = FOLDERS.flatMap((folder) => sourcesOf(folder).flatMap(importsOf));
const ownImports = everyImport
  .filter(({ target }) => target.startsWith('.'))
  .map(({ file, target, typesOnly }) => ({
    file,
    target: relative(ROOT, resolve(ROOT, dirname(file), target)),
    typesOnly,
  }));

describe('import directions', () => {
  it('sees the imports of the project at all', () => {
    expect(ownImports.length).toBeGreaterThan(20);
  });

  it.each(FOLDERS)('%s imports only from where it may', (folder) => {
    const allowed: readonly string[] = MAY_IMPORT[folder];
    const wrong = ownImports.filter(
      ({ file, target }) =>
        folderOf(file) === folder &&
        (FOLDERS as readonly string[]).concat('tests').includes(folderOf(target)) &&
        !allowed.includes(folderOf(target)),
    );
    expect(wrong).toEqual([]);
  });

  it('keeps files, processes and the terminal out of the analysis', () => {
    const terminal = ['commander', '@commander-js/extra-typings', 'cli-progress', 'cli-table3', 'picocolors'];
    const forbidden = new Set([
      ...builtinModules,
      ...builtinModules.map((name) => `node:${name}`),
      ...terminal,
    ]);
    expect(
      everyImport.filter(({ file, target }) => folderOf(file) === 'analysis' && forbidden.has(target)),
    ).toEqual([]);
  });

  it('keeps the terminal out of the core', () => {
    const terminal = new Set([
      'commander',
      '@commander-js/extra-typings',
      'cli-progress',
      'cli-table3',
      'picocolors',
    ]);
    expect(
      everyImport.filter(({ file, target }) => folderOf(file) === 'core' && terminal.has(target)),
    ).toEqual([]);
  });

  it('keeps the history apart from how it is shown and asked', () => {
    const inHistory = ownImports.filter(({ file }) => file.startsWith('cli/history/'));
    const known = ['cli/history/', 'analysis/', 'core/', 'cli/folders.js', 'cli/version.js'];
    expect(inHistory.length).toBeGreaterThan(20);
    expect(inHistory.filter(({ target }) => !known.some((one) => target.startsWith(one)))).toEqual([]);
  });

  it('has no two files that need one another', () => {
    expect(cycleIn(ownImports.filter(({ typesOnly }) => !typesOnly))).toEqual([]);
  });
});

/** The files of one import cycle, empty where there is none. */
function cycleIn(imports: readonly Import[]): string[] {
  const targets = new Map<string, string[]>();
  for (const { file, target } of imports) {
    const source = target.replace(/\.js$/, '.ts');
    targets.set(file, [...(targets.get(file) ?? []), source]);
  }
  const done = new Set<string>();
  const follow = (file: string, path: readonly string[]): string[] => {
    if (path.includes(file)) return [...path.slice(path.indexOf(file)), file];
    if (done.has(file)) return [];
    for (const target of targets.get(file) ?? []) {
      const cycle = follow(target, [...path, file]);
      if (cycle.length > 0) return cycle;
    }
    done.add(file);
    return [];
  };
  for (const file of targets.keys()) {
    const cycle = follow(file, []);
    if (cycle.length > 0) return cycle;
  }
  return [];
}
