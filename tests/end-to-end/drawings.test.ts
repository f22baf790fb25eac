import { cpSync, mkdirSync, readdirSync, readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { stripVTControlCharacters } from 'node:util';
import { beforeAll, describe, expect, it, vi } from 'vitest';
import { type SetReport, setReportSchema } from '../../analysis/report/setReport.js';
import { CURVE_COLUMNS } from '../../cli/views/tables/curveCsv.js';
import { extractFrame } from '../../core/media/extractFrame.js';
import { readFilmFacts } from '../../core/media/filmFacts.js';
import { type Ffmpeg, locateFfmpeg } from '../../core/media/locateFfmpeg.js';
import { runCommand } from './command.js';
import { runInProcess } from './runInProcess.js';
import { demoFilm, keepSimulatedTrack } from './simulatedDemo.js';
import { temporaryHome } from './temporaryHome.js';

/** Other test files may keep both cores busy. */
vi.setConfig({ testTimeout: 120_000 });

const home = temporaryHome();
const temporary = join(home, 'temporary');
const film = demoFilm('goblet-squats');
/** A name that would be markup in a page and would end a filter's option in ffmpeg. */
const HOSTILE = join(home, `<img src=x onerror=alert(1)>,'[0];.mp4`);
/** Seconds from the film's start in which there is one rep, and two. */
const [SHORT, LONG] = [6.5, 11];
const asking = (seconds: number) => [
  '--exercise',
  'squat',
  '--tempo',
  '3-1-1-0',
  '--from',
  '0',
  '--to',
  String(seconds),
  '--quiet',
];
let ffmpeg: Ffmpeg;

const run = (...parameters: string[]) =>
  runInProcess(parameters, { home, environment: { TMPDIR: temporary } });

beforeAll(async () => {
  mkdirSync(temporary);
  cpSync(film, HOSTILE);
  for (const toSeconds of [SHORT, LONG]) {
    await keepSimulatedTrack('goblet-squats', home, { fromSeconds: 0, toSeconds });
  }
  await keepSimulatedTrack('goblet-squats', home);
  writeFileSync(join(home, 'no-fonts.conf'), '<fontconfig></fontconfig>');
  ffmpeg = await locateFfmpeg();
});

async function pixelAt(file: string, seconds: number, share: { x: number; y: number }): Promise<number[]> {
  const facts = await readFilmFacts(file, ffmpeg);
  const { pixels, width, height } = await extractFrame(facts, ffmpeg, seconds, {
    width: facts.width,
    height: facts.height,
  });
  const at = (Math.floor(share.y * height) * width + Math.floor(share.x * width)) * 3;
  return [...pixels.subarray(at, at + 3)];
}

describe('the annotated film', () => {
  it('lasts as long as its part, without sound, with the panel at its foot; its name may be odd', async () => {
    const output = join(home, 'squats.mp4');
    const ask = ['annotate', HOSTILE, ...asking(SHORT), '-o', output];
    const outcome = await runCommand(ask, { home, environment: { TMPDIR: temporary } });
    expect(outcome).toEqual({ code: 0, signal: null, output: '', errors: '' });
    const [before, after] = [await readFilmFacts(film, ffmpeg), await readFilmFacts(output, ffmpeg)];
    expect(after.height / after.width).toBeCloseTo(before.height / before.width, 2);
    expect(Math.max(after.width, after.height)).toBeLessThanOrEqual(1280);
    expect(after.durationSeconds).toBeCloseTo(SHORT, 0);
    // The panel is dark where the floor is not.
    const corner = { x: 0.06, y: 0.94 };
    const [plain, drawn] = [await pixelAt(film, 5, corner), await pixelAt(output, 5, corner)];
    expect(Math.max(...drawn)).toBeLessThan(Math.max(...plain));
    expect(readdirSync(temporary)).toEqual([]);
  });

  it('shows nobody with --figure-only', async () => {
    const output = join(home, 'figure.mp4');
    expect(await run('annotate', film, ...asking(SHORT), '--figure-only', '-o', output)).toMatchObject({
      code: 0,
    });
    for (const place of [
      { x: 0.05, y: 0.05 },
      { x: 0.95, y: 0.4 },
    ]) {
      const [red = 0, green = 0, blue = 0] = await pixelAt(output, 5, place);
      // The background's colour, give or take the rounding of the encoder.
      expect(Math.abs(red - 0x20) + Math.abs(green - 0x28) + Math.abs(blue - 0x2c)).toBeLessThan(16);
    }
  });

  it('leaves nothing when interrupted', async () => {
    const place = join(home, 'interrupted');
    mkdirSync(place);
    const ask = ['--exercise', 'squat', '--tempo', '3-1-1-0', '-o', join(place, 'squats.mp4')];
    const outcome = await runCommand(['annotate', film, ...ask], {
      home,
      environment: { TMPDIR: temporary },
      whenStarted: (child) => {
        const begun = setInterval(() => {
          if (readdirSync(place).length === 0) return;
          clearInterval(begun);
          child.kill('SIGINT');
        }, 20);
        child.once('close', () => clearInterval(begun));
      },
    });
    expect(outcome).toMatchObject({ code: 130, output: '' });
    expect(outcome.errors).toMatch(/^tempofilm: Interrupted/m);
    expect(readdirSync(place)).toEqual([]);
    expect(readdirSync(temporary)).toEqual([]);
  });
});

describe('a machine that can not draw words', () => {
  it.each([
    ['without libass', /without libass/, { program: `echo "No such filter: 'ass'" >&2; exit 1` }],
    [
      'without a font',
      /No font was found/,
      { environment: { FONTCONFIG_FILE: join(home, 'no-fonts.conf') } },
    ],
  ] as const)('%s says so before any long work, and doctor warns of it', async (name, message, fault) => {
    const place = join(home, name);
    mkdirSync(place);
    const stub = join(place, 'ffmpeg');
    const program = 'program' in fault ? fault.program : `exec "${ffmpeg.path}" "$@"`;
    writeFileSync(stub, `#!/bin/sh\ncase "$*" in *-vf*) ${program};; esac\nexec "${ffmpeg.path}" "$@"\n`, {
      mode: 0o755,
    });
    const environment = 'environment' in fault ? fault.environment : {};
    const ask = ['--exercise', 'squat', '-o', join(place, 'out.mp4'), '--ffmpeg', stub];
    const outcome = await runInProcess(['annotate', film, ...ask], { home, environment });
    expect(outcome).toMatchObject({ code: 6, output: '' });
    expect(outcome.errors).toMatch(message);
    expect(readdirSync(place)).toEqual(['ffmpeg']);
    const doctor = await runInProcess(['doctor', '--ffmpeg', stub], { home, environment });
    expect(doctor.code).toBe(0);
    expect(doctor.output).toMatch(/^! Drawing/m);
  });
});

describe('the position sheet', () => {
  it('is one PNG picture of all reps', async () => {
    const output = join(home, 'squats.png');
    expect(await run('positions', film, ...asking(LONG), '-o', output)).toMatchObject({
      code: 0,
      errors: '',
    });
    const bytes = readFileSync(output);
    // Signature and header chunk of PNG (ISO/IEC 15948, sections 5.2 and 11.2.2).
    expect(bytes.subarray(0, 8)).toEqual(Buffer.from([137, 80, 78, 71, 13, 10, 26, 10]));
    expect(bytes.readUInt32BE(16)).toBeGreaterThan(400);
    expect(bytes.readUInt32BE(20)).toBeGreaterThan(500);
  });
});

describe('the terminal', () => {
  it('gets colour only where it is wanted; a pipe gets plain text', async () => {
    const ask = ['analyze', film, ...asking(LONG), '--no-save'];
    const answer = async (environment: Readonly<Record<string, string>>) =>
      (await runCommand(ask, { home, environment })).output;
    const plain = await answer({ NO_COLOR: '', FORCE_COLOR: '' });
    expect(plain).toContain('Plan: ');
    expect(plain).not.toContain('\u001b[');
    const coloured = await answer({ NO_COLOR: '', FORCE_COLOR: '1' });
    expect(coloured).toContain('\u001b[1m');
    // Without its colours the text is the same: none of its meaning lies in them.
    expect(stripVTControlCharacters(coloured)).toBe(plain);
    expect(await answer({ NO_COLOR: '1', FORCE_COLOR: '1' })).toBe(plain);
  });
});

describe('the files of one run', () => {
  let report: SetReport;
  let rows: readonly (readonly string[])[];
  const page = join(home, 'squats.html');

  beforeAll(async () => {
    const curve = join(home, 'curve.csv');
    const answer = await run(
      ...['analyze', HOSTILE, ...asking(LONG), '--format', 'json', '--note', '<b>heels raised</b>'],
      ...['--curve', curve, '--page', page, '--tolerance', '0.5'],
    );
    expect(answer).toMatchObject({ code: 0, errors: '' });
    report = setReportSchema.parse(JSON.parse(answer.output));
    const lines = readFileSync(curve, 'utf8').trimEnd().split('\n');
    expect(lines[0]).toBe(CURVE_COLUMNS.join(','));
    // The film's name stands in quotes and has commas of its own.
    rows = lines.slice(1).map((line) => ['', ...line.slice(line.lastIndexOf('",') + 2).split(',')]);
  });

  it('agree: the curve goes through the ends that the report gives', () => {
    expect(report.bouts.flatMap((bout) => bout.reps).length).toBeGreaterThanOrEqual(2);
    for (const rep of report.bouts[0]!.reps.filter(({ complete }) => complete)) {
      const angles = rows.filter((row) => Number(row[8]) === rep.number).map((row) => Number(row[6]));
      expect(angles.length).toBeGreaterThan(20);
      const reach = Math.max(...angles) - Math.min(...angles);
      expect(Math.abs(reach - rep.range!.degrees)).toBeLessThan(rep.range!.uncertaintyDegrees + 3);
    }
    const seconds = rows.map((row) => Number(row[5]));
    expect(seconds).toEqual([...seconds].sort((one, other) => one - other));
  });

  it('agree: the page judges by the tolerance that was asked for, and keeps markup as text', () => {
    const text = readFileSync(page, 'utf8');
    expect(text).toContain('the tolerance (0.5 s)');
    expect(text).toContain('&lt;b&gt;heels raised&lt;/b&gt;');
    expect(text).not.toMatch(/<img|<b>/);
    expect(Buffer.byteLength(text)).toBeLessThan(1_500_000);
  });

  it('are told again by show, beside the film, by the same tolerance', async () => {
    const again = join(home, 'again.html');
    const shown = await run('show', 'last', '--page', again, '--format', 'json');
    expect(shown.code).toBe(0);
    expect(JSON.parse(shown.output).headline).toBe(report.headline);
    const text = readFileSync(again, 'utf8');
    expect(text).toContain('the tolerance (0.5 s)');
    expect(text).toContain('&lt;b&gt;heels raised&lt;/b&gt;');
    expect(text).toContain(
      `src="${encodeURIComponent(HOSTILE.slice(home.length + 1)).replaceAll("'", '&#39;')}"`,
    );
    const alone = join(home, 'alone.html');
    expect(await run('show', 'last', '--page', alone, '--figure-only')).toMatchObject({ code: 0 });
    expect(readFileSync(alone, 'utf8')).not.toContain('<video');
  });
});
