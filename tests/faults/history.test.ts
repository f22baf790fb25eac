import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import path from 'node:path';
import { afterEach, beforeEach, describe, expect, test } from 'vitest';
import { killSaves, problemsOf, startWriter } from './killedSaves.js';

// Needs the build; `npm test` makes it. How many kills: HISTORY_KILLS, 12 unless given (`npm run kill-saves`: 200).
const KILLS = Number(process.env['HISTORY_KILLS'] ?? 12);

describe('the history under fire', () => {
  let folder = '';
  beforeEach(() => {
    folder = mkdtempSync(path.join(tmpdir(), 'tempofilm-faults-'));
  });
  afterEach(() => rmSync(folder, { recursive: true, force: true }));

  test(`killed at ${KILLS} random moments: nothing reported saved is lost, nothing is half there`, {
    timeout: 10_000 + KILLS * 5_000,
  }, async () => {
    const { reported, problems } = await killSaves(path.join(folder, 'history.sqlite'), KILLS, 150);
    expect(problems).toEqual([]);
    expect(reported).toBeGreaterThan(KILLS);
    process.stdout.write(`${reported} sets were reported saved over ${KILLS} kills\n`);
  });

  test('three processes writing at once lose nothing', { timeout: 60_000 }, async () => {
    const file = path.join(folder, 'history.sqlite');
    const writers = ['one', 'two', 'three'].map((name) => startWriter(file, name, 60));
    await Promise.all(writers.map((writer) => writer.ended));
    expect(writers.flatMap((writer) => writer.faults)).toEqual([]);
    expect(writers.map((writer) => writer.reported.length)).toEqual([60, 60, 60]);
    expect(
      problemsOf(
        file,
        writers.flatMap((writer) => writer.reported),
      ),
    ).toEqual([]);
  });

  test('one of three writers killed: the others save on', { timeout: 60_000 }, async () => {
    const file = path.join(folder, 'history.sqlite');
    const writers = ['one', 'two', 'three'].map((name) => startWriter(file, name, 40));
    await writers[0]!.opened;
    writers[0]!.process.kill('SIGKILL');
    await Promise.all(writers.map((writer) => writer.ended));
    expect(writers.slice(1).map((writer) => writer.reported.length)).toEqual([40, 40]);
    expect(
      problemsOf(
        file,
        writers.flatMap((writer) => writer.reported),
      ),
    ).toEqual([]);
  });
});
