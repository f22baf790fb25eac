import { execFileSync, spawn, spawnSync } from 'node:child_process';
import { chmodSync, existsSync, mkdirSync, readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { beforeAll, describe, expect, test, vi } from 'vitest';
import { locateFfmpeg } from '../../core/media/locateFfmpeg.js';
import { type Outcome, PROGRAM, runCommand } from '../end-to-end/command.js';
import { temporaryHome } from '../end-to-end/temporaryHome.js';

/** Other test files may keep both cores busy. */
vi.setConfig({ testTimeout: 300_000 });

const home = temporaryHome();
const film = join(home, 'room.mp4');
const ASK = ['--exercise', 'curl', '--quality', 'quick', '--workers', '1', '--no-save', '--format', 'json'];

beforeAll(async () => {
  const source = ['-f', 'lavfi', '-i', 'testsrc=s=160x120:r=10:d=1', '-pix_fmt', 'yuv420p'];
  execFileSync((await locateFfmpeg()).path, ['-v', 'error', ...source, film]);
  chmodSync(home, 0o755);
});

function oneClearLine({ errors }: Outcome, message: RegExp): void {
  const lines = errors.trimEnd().split('\n');
  expect(lines[0]).toMatch(/^tempofilm: /);
  expect(lines[0]).toMatch(message);
  expect(lines.length).toBeLessThanOrEqual(2);
}

/** Whether this system lets the test mount a small disk that nobody else sees. */
const canMount = spawnSync('unshare', ['-rm', 'true']).status === 0;

describe.skipIf(!canMount)('a full disk', () => {
  /** Runs the command with `folder` on a disk of its own that has room for one block, then lists what is on it. */
  function onFullDisk(folder: string, parameters: readonly string[], environment: Record<string, string>) {
    mkdirSync(folder);
    const script = [
      'mount -t tmpfs -o size=4k none "$1" || exit 99',
      'head -c 100000 /dev/zero > "$1/filler" 2>/dev/null',
      'shift; "$@"; code=$?',
      `ls -A "${folder}" >&2`,
      'exit $code',
    ].join('\n');
    const done = spawnSync(
      'unshare',
      ['-rm', 'sh', '-c', script, 'sh', folder, process.execPath, PROGRAM, ...parameters],
      {
        cwd: home,
        encoding: 'utf8',
        env: { ...process.env, TEMPOFILM_HOME: join(home, 'kept'), NO_COLOR: '1', ...environment },
      },
    );
    const lines = done.stderr.trimEnd().split('\n');
    return { code: done.status, output: done.stdout, lines };
  }

  test('where the answer should go: exit 2, and no half of a file', () => {
    const folder = join(home, 'full-output');
    const { code, lines } = onFullDisk(
      folder,
      ['analyze', film, ...ASK, '--output', join(folder, 'a.json')],
      {},
    );
    expect(code).toBe(2);
    expect(lines).toContainEqual(expect.stringMatching(/^tempofilm: Can't write .*: the disk is full\.$/));
    expect(lines.at(-1)).toBe('filler');
  });

  test('where measurements are kept: the answer comes all the same, with a note', () => {
    const folder = join(home, 'full-cache');
    const { code, output, lines } = onFullDisk(folder, ['analyze', film, ...ASK], { TEMPOFILM_HOME: folder });
    expect(code).toBe(4);
    expect(JSON.parse(output)).toMatchObject({ schema: 'tempofilm.set/1' });
    expect(lines).toContainEqual(expect.stringContaining('could not be kept'));
  });

  test('where the history should go: exit 5', () => {
    const folder = join(home, 'full-history');
    const { code, output, lines } = onFullDisk(
      folder,
      ['demo-history', '--history', join(folder, 'h.sqlite')],
      {},
    );
    expect({ code, output }).toEqual({ code: 5, output: '' });
    expect(lines[0]).toMatch(/^tempofilm: /);
  });

  test('for a sound track: exit 2, and no half of a file', () => {
    const folder = join(home, 'full-sound');
    const { code, lines } = onFullDisk(
      folder,
      ['pace', '4-0-1-1', '--reps', '8', '--output', join(folder, 'pace.wav')],
      {},
    );
    expect(code).toBe(2);
    expect(lines).toContainEqual(expect.stringContaining('the disk is full'));
    expect(lines.at(-1)).toBe('filler');
  });
});

const NOBODY = 65_534;
/** Root may read and write everything: then the command is run as nobody, if nobody can run it at all. */
const asNobody = process.getuid?.() === 0 ? { uid: NOBODY, gid: NOBODY } : {};
const canRun =
  spawnSync(process.execPath, [PROGRAM, '--version'], { ...asNobody, env: process.env }).status === 0;

describe.skipIf(!canRun)('a folder that is closed', () => {
  async function run(
    parameters: readonly string[],
    environment: Record<string, string> = {},
  ): Promise<Outcome> {
    const child = spawn(process.execPath, [PROGRAM, ...parameters], {
      ...asNobody,
      cwd: '/',
      env: { ...process.env, TEMPOFILM_HOME: open, TMPDIR: open, NO_COLOR: '1', ...environment },
      stdio: ['ignore', 'pipe', 'pipe'],
    });
    let [output, errors] = ['', ''];
    child.stdout.on('data', (data) => {
      output += data;
    });
    child.stderr.on('data', (data) => {
      errors += data;
    });
    return new Promise((settle) =>
      child.once('close', (code, signal) => settle({ code, signal, output, errors })),
    );
  }

  const open = join(home, 'open');
  const closed = join(home, 'closed');
  beforeAll(() => {
    mkdirSync(open);
    chmodSync(open, 0o777);
    mkdirSync(closed);
    execFileSync('cp', [film, join(closed, 'film.mp4')]);
    chmodSync(closed, 0o000);
    return () => chmodSync(closed, 0o700);
  });

  test('around the film: exit 3', async () => {
    const outcome = await run(['analyze', join(closed, 'film.mp4'), ...ASK]);
    expect(outcome).toMatchObject({ code: 3, output: '' });
    oneClearLine(outcome, /permission denied/);
  });

  test('for the answer: exit 2, said before any long work', async () => {
    const outcome = await run(['analyze', film, ...ASK, '--output', join(closed, 'set.json')]);
    expect(outcome).toMatchObject({ code: 2, output: '' });
    oneClearLine(outcome, /permission denied/);
  });

  test('for measurements: the answer comes all the same, with a note', async () => {
    const outcome = await run(['analyze', film, ...ASK], { TEMPOFILM_HOME: closed });
    expect(outcome.code).toBe(4);
    expect(JSON.parse(outcome.output)).toMatchObject({ schema: 'tempofilm.set/1' });
    expect(outcome.errors).toContain('could not be kept');
  });

  test('for the history: exit 5', async () => {
    const outcome = await run(['list'], { TEMPOFILM_HOME: closed });
    expect(outcome).toMatchObject({ code: 5, output: '' });
    oneClearLine(outcome, /./);
  });

  test('to watch: exit 2', async () => {
    const outcome = await run(['watch', closed, '--exercise', 'curl']);
    expect(outcome).toMatchObject({ code: 2, output: '' });
    oneClearLine(outcome, /permission denied/);
  });

  test('for temporary files: nothing but the answer is asked of it', async () => {
    const outcome = await run(['analyze', film, ...ASK], { TMPDIR: closed });
    expect(outcome.code).toBe(4);
  });
});

test('two runs at once with the same output: one writes it whole, the other leaves it', async () => {
  const output = join(home, 'both.json');
  // The film is measured by now, so that both come to writing at nearly the same moment.
  const parameters = ['analyze', film, ...ASK, '--output', output];
  const both = { home, environment: { TEMPOFILM_HOME: join(home, 'kept') } };
  expect(await runCommand(['analyze', film, ...ASK], both)).toMatchObject({ code: 4, errors: '' });
  const outcomes = await Promise.all([runCommand(parameters, both), runCommand(parameters, both)]);
  expect(outcomes.map(({ code }) => code).sort()).toEqual([2, 4]);
  oneClearLine(outcomes.find(({ code }) => code === 2)!, /already exists/);
  expect(JSON.parse(readFileSync(output, 'utf8'))).toMatchObject({ schema: 'tempofilm.set/1' });
  expect(readdirSync(home).filter((name) => name.includes('.part.'))).toEqual([]);
  expect(existsSync(output)).toBe(true);
});
