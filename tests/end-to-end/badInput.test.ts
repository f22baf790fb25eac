import { execFileSync } from 'node:child_process';
import {
  chmodSync,
  cpSync,
  existsSync,
  mkdirSync,
  readdirSync,
  readFileSync,
  symlinkSync,
  truncateSync,
  writeFileSync,
} from 'node:fs';
import { dirname, join } from 'node:path';
import { beforeAll, describe, expect, it, vi } from 'vitest';
import { setReportSchema } from '../../analysis/report/setReport.js';
import { type Outcome, PROGRAM, PROJECT, runCommand } from './command.js';
import { runInProcess } from './runInProcess.js';
import { temporaryHome } from './temporaryHome.js';

const home = temporaryHome();
const films = join(home, 'films');
const long = join(films, 'long.mp4');
/** Other test files may keep both cores busy. */
vi.setConfig({ testTimeout: 90_000 });
vi.mock('../../core/pose/workerPool.js', () => import('./poolInProcess.js'));

function makeFilm(name: string, ...parameters: string[]): string {
  const file = join(films, name);
  execFileSync('ffmpeg', ['-v', 'error', '-y', ...parameters, file]);
  return file;
}

function lavfi(source: string): string[] {
  return ['-f', 'lavfi', '-i', source, '-pix_fmt', 'yuv420p'];
}

function analyze(...parameters: string[]): Promise<Outcome> {
  return runInProcess(['analyze', ...parameters], { home, folder: films });
}

/** What went wrong in one line, then at most one line of remedy; no stack trace. */
function expectOneClearLine(outcome: Outcome, code: number, message: RegExp): void {
  expect(outcome).toMatchObject({ code, output: '' });
  const lines = outcome.errors.trimEnd().split('\n');
  expect(lines[0]).toMatch(/^tempofilm: /);
  expect(outcome.errors).toMatch(message);
  expect(lines.length).toBeLessThanOrEqual(2);
  expect(outcome.errors).not.toMatch(/^\s+at /m);
}

beforeAll(() => {
  mkdirSync(films);
  makeFilm('empty-room.mp4', ...lavfi('color=gray:size=320x240:rate=10:duration=2'));
  makeFilm('long.mp4', ...lavfi('testsrc=size=320x240:rate=15:duration=60'), '-preset', 'ultrafast');
  makeFilm('sound-only.mp4', '-f', 'lavfi', '-i', 'sine=duration=1', '-c:a', 'aac');
  const whole = readFileSync(join(films, 'empty-room.mp4'));
  writeFileSync(join(films, 'truncated.mp4'), whole.subarray(0, 700));
  writeFileSync(join(films, 'nothing.mp4'), '');
  writeFileSync(join(films, 'text.mp4'), 'Monday: rows, three sets of ten.\n');
  mkdirSync(join(films, 'folder.mp4'));
});

describe('a film that is none', () => {
  it.each([
    ['missing', 'not-there.mp4', /not-there\.mp4/],
    ['a folder', 'folder.mp4', /folder/],
    ['empty', 'nothing.mp4', /empty/],
    ['text', 'text.mp4', /text\.mp4/],
    ['truncated', 'truncated.mp4', /truncated\.mp4/],
    ['without pictures', 'sound-only.mp4', /sound-only\.mp4/],
  ])('%s: exit 3', async (_name, film, message) => {
    expectOneClearLine(await analyze(film, '--exercise', 'curl'), 3, message);
  });

  it('through the built command as well', async () => {
    const built = await runCommand(['analyze', 'text.mp4', '--exercise', 'curl'], { home, folder: films });
    expectOneClearLine(built, 3, /text\.mp4/);
  });

  it('names that begin with a dash or hold quotes and line breaks are names', async () => {
    const odd = '-"x"\n<b>.mp4';
    expectOneClearLine(await analyze('--exercise', 'curl', '--', odd), 3, /<b>\.mp4/);
  });
});

describe('a film that can not answer', () => {
  it('gives a report all the same, and exit 4', async () => {
    const ask = ['--exercise', 'curl', '--format', 'json', '--quality', 'quick', '--workers', '1'];
    const outcome = await analyze('empty-room.mp4', ...ask);
    expect(outcome.code).toBe(4);
    const report = setReportSchema.parse(JSON.parse(outcome.output));
    expect(report.quality.usable).toBe(false);
    expect(report.quality.findings.some(({ remedy }) => remedy !== null)).toBe(true);
    expect(existsSync(join(home, 'history.sqlite'))).toBe(false);
  });

  it('nor without an exercise where nobody moves: exit 4', async () => {
    const outcome = await analyze('empty-room.mp4', '--format', 'json', '--quality', 'quick');
    expect(outcome.code).toBe(4);
    const report = setReportSchema.parse(JSON.parse(outcome.output));
    expect(report.quality.usable).toBe(false);
    expect(report.exercise).toMatchObject({ chosenBy: 'recognition', confirmed: false });
  });

  it('among several films one report a line, the highest exit code, and no film lost', async () => {
    const outcome = await analyze(
      'nothing.mp4',
      'empty-room.mp4',
      'not-there.mp4',
      ...['--exercise', 'curl', '--format', 'json', '--quality', 'quick'],
    );
    expect(outcome.code).toBe(4);
    const lines = outcome.output.trimEnd().split('\n');
    expect(lines.map((line) => JSON.parse(line).film.file)).toEqual(['empty-room.mp4']);
    expect(outcome.errors).toMatch(/nothing\.mp4[\s\S]*not-there\.mp4/);
  });
});

describe('a wrong command line: exit 2', () => {
  it.each([
    ['unknown exercise', ['--exercise', 'sqaut'], /Did you mean "squat"\?/],
    ['--from after --to', ['--exercise', 'curl', '--from', '5', '--to', '3'], /--to .* after --from/],
    ['--from beyond the end', ['--exercise', 'curl', '--from', '50'], /only 2\.\d s long/],
    [
      '--stage beside --tempo',
      ['--exercise', 'curl', '--tempo', '4-0-1-1', '--stage', '4-0-1-1:8'],
      /--stage/,
    ],
    ['reps backwards', ['--exercise', 'curl', '--reps', '10-8'], /backwards/],
    ['a load of stones', ['--exercise', 'curl', '--load', '3 stones'], /3 stones/],
    ['a folder that is not there', ['--exercise', 'curl', '--output', 'nowhere/set.json'], /nowhere/],
    ['an output that exists', ['--exercise', 'curl', '--output', 'text.mp4'], /already exists/],
    ['an output that is a folder', ['--exercise', 'curl', '--output', 'folder.mp4'], /folder/],
    ['a lifter outside the picture', ['--exercise', 'curl', '--lifter', '900,20@1'], /320 × 240/],
    [
      'a lifter where nobody is, in pixels as it was given',
      ['--exercise', 'curl', '--quality', 'quick', '--lifter', '48,32@0'],
      /--lifter 48,32@0 points at nobody/,
    ],
  ])('%s', async (_name, parameters, message) => {
    expectOneClearLine(await analyze('empty-room.mp4', ...parameters), 2, message);
  });

  it('shows where a tempo is malformed', async () => {
    const outcome = await analyze('empty-room.mp4', '--exercise', 'curl', '--tempo', '4-0-z-1');
    expect(outcome.code).toBe(2);
    expect(outcome.errors).toMatch(/^ {2}4-0-z-1\n {6}\^$/m);
  });

  it.each([
    ['unknown option', ['--tmepo', '4011'], /--tempo/],
    ['unknown format', ['--exercise', 'curl', '--format', 'xml'], /text, json, csv/],
    ['no such time', ['--exercise', 'curl', '--from', 'soon'], /seconds/],
  ])('%s', async (_name, parameters, message) => {
    const outcome = await analyze('empty-room.mp4', ...parameters);
    expect(outcome).toMatchObject({ code: 2, output: '' });
    expect(outcome.errors).toMatch(/^tempofilm: /);
    expect(outcome.errors).toMatch(message);
  });

  it('through the built command as well', async () => {
    const parameters = ['analyze', 'empty-room.mp4', '--exercise', 'curl', '--tempo', '4-0-z-1'];
    const built = await runCommand(parameters, { home, folder: films });
    expect(built).toEqual(await runInProcess(parameters, { home, folder: films }));
    expect(built.code).toBe(2);
    expect((await runCommand(['analyze', '--tmepo', '4011'], { home })).errors).toMatch(
      /^tempofilm: .*--tempo/s,
    );
  });

  it.skipIf(process.getuid?.() === 0)(
    'a folder that can not be written (checked where not run as root)',
    async () => {
      const locked = join(home, 'locked');
      mkdirSync(locked);
      chmodSync(locked, 0o500);
      const output = join(locked, 'set.json');
      expectOneClearLine(
        await analyze('empty-room.mp4', '--exercise', 'curl', '--output', output),
        2,
        /permission/,
      );
    },
  );

  it('leaves an existing output as it is', () => {
    expect(readFileSync(join(films, 'text.mp4'), 'utf8')).toBe('Monday: rows, three sets of ten.\n');
  });
});

describe('an installation that lacks something: exit 6', () => {
  it('no ffmpeg where the user says it is', async () => {
    const nowhere = ['--ffmpeg', join(home, 'no-ffmpeg')];
    expectOneClearLine(await analyze('empty-room.mp4', '--exercise', 'curl', ...nowhere), 6, /--ffmpeg/);
    const examined = await runInProcess(['doctor', ...nowhere], { home });
    expect(examined.code).toBe(6);
    expect(examined.output).toMatch(/✗ ffmpeg +missing: .*no-ffmpeg/);
  });

  it('damaged weights are found by analyze and by doctor', async () => {
    const copy = join(home, 'copy');
    cpSync(dirname(dirname(PROGRAM)), join(copy, 'dist'), { recursive: true });
    cpSync(join(PROJECT, 'package.json'), join(copy, 'package.json'));
    symlinkSync(join(PROJECT, 'node_modules'), join(copy, 'node_modules'));
    // Which of the two is read depends on whether the machine has the native runtime.
    for (const kind of ['bin', 'onnx'])
      truncateSync(join(copy, `dist/weights/movenet-lightning.${kind}`), 1000);
    const program = join(copy, 'dist/cli/main.js');
    const parameters = [
      'analyze',
      'empty-room.mp4',
      '--exercise',
      'curl',
      '--quality',
      'quick',
      '--workers',
      '1',
    ];
    const fresh = join(home, 'fresh');
    mkdirSync(fresh);
    expectOneClearLine(
      await runCommand(parameters, { home: fresh, folder: films, program }),
      6,
      /movenet-lightning\.(bin|onnx) is damaged/,
    );
    const examined = await runCommand(['doctor'], { home, program });
    expect(examined.code).toBe(6);
    expect(examined.output).toMatch(/✗ Pose model[\s\S]*movenet-lightning/);
  });
});

describe('Ctrl-C and a polite end', () => {
  it.each(['SIGINT', 'SIGTERM'] as const)('%s: exit 130, one line, nothing left behind', async (signal) => {
    const place = join(home, signal);
    const fresh = join(home, `${signal}-home`);
    mkdirSync(place);
    mkdirSync(fresh);
    const outcome = await runCommand(
      ['analyze', long, '--exercise', 'curl', '--output', join(place, 'set.json'), '--quality', 'full'],
      { home: fresh, whenStarted: (child) => setTimeout(() => child.kill(signal), 2500) },
    );
    expect(outcome.code).toBe(130);
    expect(outcome.errors).toMatch(/^tempofilm: Interrupted/);
    expect(readdirSync(place)).toEqual([]);
    // The facts of the film, whole, are all that is kept of a run that was ended.
    const kept = readdirSync(fresh, { recursive: true }).map(String);
    expect(kept.filter((name) => !/^cache$|^cache.[0-9a-f]{64}\.film-facts$/.test(name))).toEqual([]);
    expect(childrenWorkingOn(long)).toEqual([]);
  });
});

/** Command lines of running processes that name the file. */
function childrenWorkingOn(file: string): string[] {
  return readdirSync('/proc')
    .filter((name) => /^\d+$/.test(name))
    .map((name) => {
      try {
        return readFileSync(join('/proc', name, 'cmdline'), 'utf8').replaceAll('\0', ' ');
      } catch {
        return '';
      }
    })
    .filter((line) => line.includes(file));
}
