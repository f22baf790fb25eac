import { execFileSync, spawnSync } from 'node:child_process';
import { chmodSync, existsSync, mkdirSync, readdirSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { beforeAll, describe, expect, test, vi } from 'vitest';
import { locateFfmpeg } from '../../core/media/locateFfmpeg.js';
import { type Outcome, PROGRAM, runCommand } from '../end-to-end/command.js';
import { runInProcess } from '../end-to-end/runInProcess.js';
import { temporaryHome } from '../end-to-end/temporaryHome.js';

/** Other test files may keep both cores busy. */
vi.setConfig({ testTimeout: 300_000 });
vi.mock('../../core/pose/workerPool.js', () => import('../end-to-end/poolInProcess.js'));

const home = temporaryHome();
const temporary = join(home, 'temporary');
const film = join(home, 'room.mp4');
const ASK = ['--exercise', 'curl', '--quality', 'quick', '--workers', '1', '--no-save'];
let ffmpegPath: string;

beforeAll(async () => {
  ffmpegPath = (await locateFfmpeg()).path;
  mkdirSync(temporary);
  const source = ['-f', 'lavfi', '-i', 'testsrc=s=320x240:r=10:d=1'];
  execFileSync(ffmpegPath, ['-v', 'error', ...source, '-pix_fmt', 'yuv420p', film]);
});

const surroundings = { home, environment: { TMPDIR: temporary } };
const run = (...parameters: string[]): Promise<Outcome> => runInProcess(parameters, surroundings);
const runBuilt = (...parameters: string[]): Promise<Outcome> => runCommand(parameters, surroundings);

/** A stand-in for ffmpeg: answers `-version` as the real one, and else runs the script. */
function standIn(name: string, script: string): string {
  const path = join(home, name);
  const version = `case "$*" in *-version*) exec "${ffmpegPath}" "$@";; esac`;
  writeFileSync(path, `#!/bin/sh\n${version}\n${script}\n`);
  chmodSync(path, 0o755);
  return path;
}

describe('faults of ffmpeg', () => {
  test('missing: exit 6', async () => {
    const outcome = await run('analyze', film, ...ASK, '--ffmpeg', join(home, 'no-such-ffmpeg'));
    expect(outcome).toMatchObject({ code: 6, output: '' });
    expect(outcome.errors).toMatch(/^tempofilm: --ffmpeg names/);
  });

  test('ended in the middle by someone else: exit 3, one line, nothing left', async () => {
    const killed = `case "$*" in *rawvideo*) "${ffmpegPath}" "$@" | head -c 200000; kill -KILL $$;; esac\nexec "${ffmpegPath}" "$@"`;
    const outcome = await runBuilt('analyze', film, ...ASK, '--ffmpeg', standIn('killed', killed));
    expect(outcome).toMatchObject({ code: 3, output: '' });
    expect(outcome.errors).toMatch(/^tempofilm: ffmpeg was ended from outside/);
    expect(readdirSync(temporary)).toEqual([]);
  });

  test('that crashes when it opens the film: exit 3, and the blame where it belongs', async () => {
    const outcome = await run(
      'analyze',
      film,
      ...ASK,
      '--ffmpeg',
      standIn('crashing', `case "$*" in *rawvideo*) ;; *) kill -SEGV $$;; esac\nexec "${ffmpegPath}" "$@"`),
    );
    expect(outcome).toMatchObject({ code: 3, output: '' });
    expect(outcome.errors).toMatch(/^tempofilm: ffmpeg .* crashed on .*SIGSEGV/);
  });

  test('that prints rubbish and fails: exit 3', async () => {
    const outcome = await run(
      'analyze',
      film,
      ...ASK,
      '--ffmpeg',
      standIn('rubbish', 'echo rubbish >&2; exit 9'),
    );
    expect(outcome).toMatchObject({ code: 3, output: '' });
    expect(outcome.errors.trimEnd().split('\n').length).toBeLessThanOrEqual(2);
  });
});

test('two runs at once on the same film answer alike', async () => {
  const [one, other] = await Promise.all([
    runBuilt('analyze', film, ...ASK, '--format', 'json'),
    runBuilt('analyze', film, ...ASK, '--format', 'json'),
  ]);
  expect(one.code).toBe(4);
  expect(other).toEqual(one);
});

/** Whether this system lets the test run a program in a network of its own, with nothing in it. */
const canIsolate = spawnSync('unshare', ['-rn', 'true']).status === 0;

test.skipIf(!canIsolate)('without any network the answer is the same', async () => {
  const isolated = spawnSync(
    'unshare',
    ['-rn', process.execPath, PROGRAM, 'analyze', film, ...ASK, '--format', 'json'],
    {
      cwd: home,
      encoding: 'utf8',
      env: { ...process.env, TEMPOFILM_HOME: join(home, 'isolated'), TMPDIR: temporary, NO_COLOR: '1' },
    },
  );
  const ordinary = await runBuilt('analyze', film, ...ASK, '--format', 'json');
  expect(isolated.status).toBe(ordinary.code);
  expect(isolated.stdout).toBe(ordinary.output);
});

test('the check answers for a film with nobody in it, and for what is no film', async () => {
  const nobody = await run('check', film, '--format', 'json', '--workers', '1');
  expect(nobody.code).toBe(4);
  expect(JSON.parse(nobody.output)).toMatchObject({ schema: 'tempofilm.check/1', usable: false });
  const missing = await run('check', 'not-there.mp4');
  expect(missing).toMatchObject({ code: 3, output: '' });
  expect(existsSync(join(home, 'not-there.mp4'))).toBe(false);
});
