import { chmod, mkdir, mkdtemp, readdir, readFile, rm, stat, symlink, writeFile } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterEach, beforeEach, describe, expect, test } from 'vitest';
import { withTemporaryFolder } from '../../../core/media/temporaryFolder.js';
import { produceAside, writeAside } from '../../../core/media/writeAside.js';

let folder: string;
beforeEach(async () => {
  folder = await mkdtemp(join(tmpdir(), 'tempofilm-test-'));
});
afterEach(() => rm(folder, { recursive: true, force: true }));

describe('writing aside', () => {
  test('writes the whole file and nothing else', async () => {
    const file = join(folder, 'report.json');
    await writeAside(file, '{}');
    expect(await readFile(file, 'utf8')).toBe('{}');
    expect(await readdir(folder)).toEqual(['report.json']);
  });

  test('keeps a file that exists, unless forced', async () => {
    const file = join(folder, 'report.json');
    await writeFile(file, 'mine');
    await expect(writeAside(file, 'other')).rejects.toMatchObject({ kind: 'usage' });
    expect(await readFile(file, 'utf8')).toBe('mine');
    await writeAside(file, 'other', { force: true });
    expect(await readFile(file, 'utf8')).toBe('other');
    expect(await readdir(folder)).toEqual(['report.json']);
  });

  test('refuses folders, missing folders and impossible names in one line', async () => {
    await mkdir(join(folder, 'taken'));
    await writeFile(join(folder, 'file'), '');
    const impossible = ['taken', 'missing/report.json', 'file/report.json', `${'x'.repeat(300)}.json`];
    for (const name of impossible) {
      await expect(writeAside(join(folder, name), '{}', { force: true })).rejects.toMatchObject({
        kind: 'usage',
        message: expect.stringMatching(/^[^\n]+$/),
      });
    }
  });

  test.skipIf(process.getuid?.() === 0)('refuses a folder without permission', async () => {
    await mkdir(join(folder, 'closed'));
    await chmod(join(folder, 'closed'), 0o555);
    await expect(writeAside(join(folder, 'closed', 'a'), '')).rejects.toMatchObject({ kind: 'usage' });
  });

  test('a link that leads nowhere counts as a file that exists', async () => {
    await symlink(join(folder, 'nowhere'), join(folder, 'link'));
    await expect(writeAside(join(folder, 'link'), '')).rejects.toMatchObject({ kind: 'usage' });
  });

  test('leaves nothing when the making fails', async () => {
    const failing = produceAside(join(folder, 'film.mp4'), {}, async (temporaryFile) => {
      await writeFile(temporaryFile, 'half');
      throw new RangeError('fault');
    });
    await expect(failing).rejects.toThrow(RangeError);
    expect(await readdir(folder)).toEqual([]);
  });

  test('of two runs at once only one writes', async () => {
    const file = join(folder, 'report.json');
    const slowly = (text: string) =>
      produceAside(file, {}, async (temporaryFile) => {
        await new Promise((settle) => setTimeout(settle, 30));
        await writeFile(temporaryFile, text);
      });
    const outcomes = await Promise.allSettled([slowly('first'), slowly('second')]);
    expect(outcomes.map((outcome) => outcome.status).sort()).toEqual(['fulfilled', 'rejected']);
    expect(['first', 'second']).toContain(await readFile(file, 'utf8'));
    expect(await readdir(folder)).toEqual(['report.json']);
  });
});

describe('a temporary folder', () => {
  test('is private and gone afterwards, also after a fault', async () => {
    const seen: string[] = [];
    const use = (fail: boolean) =>
      withTemporaryFolder(async (path) => {
        seen.push(path);
        expect((await stat(path)).mode & 0o777).toBe(0o700);
        await writeFile(join(path, 'film.part'), 'half');
        if (fail) throw new RangeError('fault');
      });
    await use(false);
    await expect(use(true)).rejects.toThrow(RangeError);
    for (const path of seen) await expect(stat(path)).rejects.toMatchObject({ code: 'ENOENT' });
  });
});
