import { spawn } from 'node:child_process';
import { chmodSync, copyFileSync, mkdirSync, readdirSync, readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { setTimeout as wait } from 'node:timers/promises';
import { beforeAll, describe, expect, test, vi } from 'vitest';
import { openDatabase } from '../../cli/history/file/database.js';
import { withHistory } from '../../cli/history/file/history.js';
import { SCHEMA_VERSION } from '../../cli/history/file/migrations/index.js';
import { readEntries } from '../../cli/history/sets/readEntries.js';
import { type Outcome, PROGRAM, runCommand } from '../end-to-end/command.js';
import { runInProcess } from '../end-to-end/runInProcess.js';
import { temporaryHome } from '../end-to-end/temporaryHome.js';

// Through the built command. How many kills: HISTORY_KILLS, 12 unless given (`npm run kill-saves`: 200).
const KILLS = Number(process.env['HISTORY_KILLS'] ?? 12);
const SETS = 24;
vi.setConfig({ testTimeout: 90_000 });
const home = temporaryHome();
const model = join(home, 'model.sqlite');
const run = (...parameters: readonly string[]) => runInProcess(parameters, { home });
const runBuilt = (...parameters: readonly string[]) => runCommand(parameters, { home });

/** A copy of the invented history in a folder of its own. */
function historyIn(name: string): string {
  const folder = join(home, name);
  mkdirSync(folder);
  const file = join(folder, 'history.sqlite');
  copyFileSync(model, file);
  return file;
}

/** The same sets as exported, under other films, so that each of them is added. */
function otherSets(name: string): string {
  const file = join(home, `${name}.jsonl`);
  const lines = readFileSync(join(home, 'model.jsonl'), 'utf8');
  writeFileSync(
    file,
    lines.replaceAll(/"uid":"[^"]*/g, (found) => `${found} ${name}`).replaceAll('"filmKey":"', `$&${name} `),
  );
  return file;
}

/** Runs a command line under a limit of the shell, or without the right to overrule file modes. */
function runIn(shell: string, parameters: readonly string[]): Promise<Outcome> {
  return runCommand(['-c', `${shell} "$0" "$@"`, process.execPath, PROGRAM, ...parameters], {
    home,
    interpreter: 'bash',
  });
}

const setsIn = (file: string) => withHistory(file, 'reading', (history) => readEntries(history).length);

/** Root writes whatever the mode says, unless that right is taken away. */
const WITHOUT_OVERRULING =
  process.getuid?.() === 0 ? 'exec setpriv --bounding-set -dac_override,-dac_read_search,-fowner' : 'exec';

beforeAll(async () => {
  await run('demo-history', '--history', model);
  await run('export', '--history', model, '--output', join(home, 'model.jsonl'));
}, 60_000);

describe('the history file through the command', () => {
  test('a disk that takes no more: said so, and the file is byte for byte what it was', async () => {
    const file = historyIn('full');
    const before = readFileSync(file);
    // 60 KiB: less than the log of the new sets needs.
    const outcome = await runIn('ulimit -f 60; exec', ['import', otherSets('full'), '--history', file]);
    expect(outcome).toMatchObject({ code: 5, output: '' });
    expect(outcome.errors).toMatch(
      /^tempofilm: .*nothing was changed\.\n {2}Check the disk and its free space/,
    );
    expect(readFileSync(file).equals(before)).toBe(true);
    expect(setsIn(file)).toBe(SETS);
    const left = readdirSync(join(home, 'full', 'backups')).filter((name) => !name.endsWith('.sqlite'));
    expect(left).toEqual([]);
    // With room again, the same command goes through.
    expect((await run('import', join(home, 'full.jsonl'), '--history', file)).output).toMatch(/^24 added/);
  });

  test('a write-protected history is read, and every change refused', async () => {
    const file = historyIn('protected');
    const before = readFileSync(file);
    chmodSync(file, 0o444);
    chmodSync(join(home, 'protected'), 0o555);
    const here = ['--history', file];
    for (const reading of [
      ['list'],
      ['show', 'last'],
      ['history', 'row'],
      ['compare', '1:left', '1:right'],
    ]) {
      const outcome = await runIn(WITHOUT_OVERRULING, [...reading, ...here]);
      expect(outcome).toMatchObject({ code: 0, errors: '' });
    }
    for (const change of [
      ['edit', '1', '--note', 'x'],
      ['amend', '1', '--drop', '2', '--side', 'left'],
      ['delete', '1', '--yes'],
      ['import', otherSets('protected')],
    ]) {
      const outcome = await runIn(WITHOUT_OVERRULING, [...change, ...here]);
      expect(outcome).toMatchObject({ code: 5, output: '' });
      expect(outcome.errors).toMatch(/may not be written; nothing was changed/);
    }
    const backup = await runIn(WITHOUT_OVERRULING, ['backup', ...here]);
    expect(backup).toMatchObject({ code: 5 });
    expect(backup.errors).toMatch(/folder for the backup, .*, cannot be made/);
    chmodSync(join(home, 'protected'), 0o755);
    expect(readFileSync(file).equals(before)).toBe(true);
  }, 60_000);

  test('a history of a newer version: exit code 5, byte for byte left alone', async () => {
    const file = historyIn('newer');
    const database = openDatabase(file);
    database.exec(`PRAGMA user_version = ${SCHEMA_VERSION + 1}`);
    database.close();
    const before = readFileSync(file);
    for (const parameters of [['list'], ['delete', '1', '--yes'], ['import', otherSets('newer')]]) {
      const outcome = await run(...parameters, '--history', file);
      expect(outcome).toMatchObject({ code: 5, output: '' });
      expect(outcome.errors).toMatch(/written by a newer version of tempofilm/);
    }
    expect(readFileSync(file).equals(before)).toBe(true);
  });

  test('three commands writing at once lose nothing', async () => {
    const file = historyIn('three');
    const outcomes = await Promise.all(
      ['one', 'two', 'three'].map((name) => runBuilt('import', otherSets(name), '--history', file)),
    );
    expect(outcomes.map(({ code, output }) => [code, output.slice(0, 8)])).toEqual(
      Array.from({ length: 3 }, () => [0, '24 added']),
    );
    expect(setsIn(file)).toBe(4 * SETS);
  }, 60_000);

  test(`a command killed at ${KILLS} random moments: all of its sets are there, or none`, {
    timeout: 30_000 + KILLS * 6_000,
  }, async () => {
    const file = historyIn('killed');
    let expected = SETS;
    const began = Date.now();
    await runBuilt('import', otherSets('whole'), '--history', file);
    expected += SETS;
    const whole = Date.now() - began;
    for (let kill = 0; kill < KILLS; kill += 1) {
      const child = spawn(
        process.execPath,
        [PROGRAM, 'import', otherSets(`kill${kill}`), '--history', file],
        {
          env: { ...process.env, TEMPOFILM_HOME: home },
          stdio: ['ignore', 'pipe', 'ignore'],
        },
      );
      let reported = '';
      child.stdout.setEncoding('utf8').on('data', (text: string) => {
        reported += text;
      });
      const ended = new Promise((resolve) => child.on('close', resolve));
      // Most of the time is spent before anything is written.
      await wait(whole * (0.4 + 0.6 * Math.random()));
      child.kill('SIGKILL');
      await ended;
      const found = setsIn(file);
      if (reported.includes('24 added')) expect(found).toBe(expected + SETS);
      else expect([expected, expected + SETS]).toContain(found);
      expected = found;
    }
    const database = openDatabase(file);
    expect(database.get('PRAGMA integrity_check')).toEqual({ integrity_check: 'ok' });
    expect(database.all('PRAGMA foreign_key_check')).toEqual([]);
    database.close();
  });
});
