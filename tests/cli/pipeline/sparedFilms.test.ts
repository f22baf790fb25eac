import { execFileSync } from 'node:child_process';
import { linkSync, mkdtempSync, rmSync, symlinkSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, describe, expect, test } from 'vitest';
import { readTextFile } from '../../../cli/options/readTextFile.js';
import { spareFilms } from '../../../cli/pipeline/sparedFilms.js';

const folder = mkdtempSync(join(tmpdir(), 'tempofilm-test-'));
afterAll(() => rmSync(folder, { recursive: true, force: true }));
const film = join(folder, 'row.mp4');
writeFileSync(film, 'film');
linkSync(film, join(folder, 'hard.mp4'));
symlinkSync(film, join(folder, 'soft.mp4'));

describe('films are never written over', () => {
  test.each(['row.mp4', './row.mp4', 'hard.mp4', 'soft.mp4'])('by %s', async (name) => {
    await expect(spareFilms([film], { '--output': join(folder, name) })).rejects.toMatchObject({
      kind: 'usage',
      message: expect.stringContaining('--output would write over'),
    });
  });

  test('nor one output by the other', async () => {
    const set = join(folder, 'set.html');
    await expect(
      spareFilms([film], { '--output': set, '--page': `${folder}/./set.html` }),
    ).rejects.toMatchObject({
      message: expect.stringContaining('--page would write over'),
    });
  });

  test('other outputs are no matter', async () => {
    await spareFilms([film, join(folder, 'missing.mp4')], {
      '--output': join(folder, 'set.json'),
      '--page': undefined,
    });
  });
});

test.skipIf(process.platform === 'win32')('a pipe is no plan: nobody may ever write to it', async () => {
  const pipe = join(folder, 'plan.yaml');
  execFileSync('mkfifo', [pipe]);
  await expect(readTextFile(pipe, 'plan')).rejects.toMatchObject({
    kind: 'usage',
    message: expect.stringContaining('no ordinary file'),
  });
});
