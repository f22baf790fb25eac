import { existsSync, mkdirSync, readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { beforeAll, describe, expect, test } from 'vitest';
import { runInProcess } from './runInProcess.js';
import { stageFilm } from './stagedFilm.js';
import { temporaryHome } from './temporaryHome.js';

const home = temporaryHome();
const run = (...parameters: readonly string[]) => runInProcess(parameters, { home });
const plan = join(home, 'evening.yaml');
const PLAN = `name: Garage, Tuesday
exercises:
  - { exercise: squat, tempo: 3-_-1-_, reps: 4, load: 20kg, rest: 90 }
  - { exercise: curl, tempo: 3010, reps: 3-8, load: 8kg, pair: A }
  - exercise: lateral-raise
    pair: A
    rest: 1:00
    stages:
      - { tempo: 3-0-1-1, reps: 3, load: 5kg }
      - { tempo: 1-0-X-0, reps: 2-6, load: 4kg }
`;

/** The films of one evening: squats, then curls and raises back to back; the squats lowered so quickly. */
async function evening(day: string, squatSeconds: number): Promise<string> {
  const folder = join(home, `evening ${day}`);
  mkdirSync(folder);
  const at = (time: string) => `2026-03-${day}T18:${time}Z`;
  const film = (name: string, exercise: string, recordedAt: string, loweringSeconds: readonly number[]) =>
    stageFilm(home, folder, { name, exercise, recordedAt, loweringSeconds });
  // Named against the order of recording.
  await film('c.mp4', 'squat', at('02:00'), [squatSeconds, squatSeconds, squatSeconds]);
  await film('b.mp4', 'curl', at('04:10'), [3, 3, 3]);
  await film('a.mp4', 'lateral-raise', at('04:45'), [3, 3, 3, 1, 1]);
  return folder;
}

describe('a whole workout', () => {
  let first = '';
  let second = '';
  beforeAll(async () => {
    writeFileSync(plan, PLAN);
    first = await evening('10', 2.4);
    second = await evening('17', 3);
    writeFileSync(join(second, 'broken.mp4'), 'no film');
  }, 120_000);

  test('films in order of recording, each its planned set, rests, and the session before beside it', async () => {
    const before = await run('session', first, '--plan', plan, '--format', 'json', '--quiet');
    expect(before).toMatchObject({ code: 0, errors: '' });
    const session = JSON.parse(before.output);
    const told = session.sets.map(
      (set: { slot: { exercise: { id: string }; setNumber: number } }) =>
        `${set.slot.exercise.id} ${set.slot.setNumber}`,
    );
    expect(told).toEqual(['squat 1', 'curl 1', 'lateral-raise 1']);
    expect(
      session.sets.map((set: { bouts: { completeReps: number }[] }) => set.bouts[0]?.completeReps),
    ).toEqual([3, 3, 5]);
    expect(session.sets.map((set: { plannedPause: unknown }) => set.plannedPause)).toEqual([
      null,
      { kind: 'rest', seconds: 90 },
      { kind: 'back-to-back' },
    ]);
    // 130 s from stamp to stamp; the first move is about 1.2 s in, the last about 1.2 s before the end.
    const [, rest] = session.sets.map((set: { restBefore: unknown }) => set.restBefore);
    const squatFilm = session.sets[0].report.film.durationSeconds;
    expect(rest.leastSeconds).toBeGreaterThan(130 - squatFilm - 10);
    expect(rest.mostSeconds).toBeLessThan(130);
    expect(rest.mostSeconds - rest.leastSeconds).toBeGreaterThanOrEqual(2);
    expect(session.sets[2].report).toMatchObject({
      load: { value: 5, unit: 'kg' },
      stageLoads: [
        { value: 5, unit: 'kg' },
        { value: 4, unit: 'kg' },
      ],
    });

    const page = join(home, 'session.html');
    const after = await run('session', second, '--plan', plan, '--page', page);
    // The film that can't be read is told at the end and keeps nobody from being answered.
    expect(after.code).toBe(3);
    expect(after.output).toMatch(
      /^Garage, Tuesday: 3 of 3 planned sets measured; delivered \d+ of 29 planned/,
    );
    expect(after.output).toMatch(/Rest \(plan\) +10 Mar 2026/);
    // Lowerings of 2.4 s where 3 were planned: 80 %, within 0.2 s a lowering.
    expect(after.output).toMatch(/1 {2}Squat +20 kg +3▼ .* 3, (7[4-9]|8[0-6]) %/);
    expect(after.output).toMatch(/3 {2}A Lateral raise .*\(none\)/);
    expect(after.output).toMatch(/4 {2}not measured/);
    expect(after.output).toMatch(/broken\.mp4/);
    for (const line of after.output.split('\n')) expect(line.length).toBeLessThanOrEqual(80);
    const written = readFileSync(page, 'utf8');
    expect(written).toContain('<h1>Garage, Tuesday: 3 of 3 planned sets measured');
    expect(written).toContain('Last time, 10 Mar 2026');
    expect((await run('list')).output).toContain('5 kg → 4 kg');
  }, 240_000);

  test('several films with --plan take the sets of their exercise in order', async () => {
    const plans = join(home, 'squats.yaml');
    writeFileSync(
      plans,
      'lifter: Kim\nexercises:\n  - { exercise: squat, tempo: 3-_-1-_, load: 20kg }\n  - { exercise: squat, tempo: 5-_-1-_, load: 16kg }\n',
    );
    const films = [join(first, 'c.mp4'), join(second, 'c.mp4')];
    const file = join(home, 'kim.sqlite');
    const outcome = await run(
      ...['analyze', ...films, '--exercise', 'squat', '--plan', plans, '--format', 'json', '--quiet'],
      ...['--history', file],
    );
    expect(outcome).toMatchObject({ code: 0, errors: '' });
    const reports = outcome.output
      .trim()
      .split('\n')
      .map((line) => JSON.parse(line));
    expect(reports.map((report) => report.plan.stages[0].tempo.eccentric)).toEqual([3, 5]);
    expect(reports.map((report) => report.load.value)).toEqual([20, 16]);
    expect((await run('list', '--history', file)).output).toContain('Kim');
  }, 120_000);

  test('films that are in no saved set are measured for a comparison alone', async () => {
    const films = [join(first, 'c.mp4'), join(second, 'c.mp4')] as const;
    const elsewhere = ['--history', join(home, 'none.sqlite'), '--quiet'];
    const unasked = await run('compare', ...films, ...elsewhere);
    expect(unasked).toMatchObject({ code: 2, output: '' });
    expect(unasked.errors).toContain('Which exercise do the films show?');

    const page = join(home, 'both.html');
    const compared = await run('compare', ...films, '--exercise', 'squat', '--page', page, ...elsewhere);
    expect(compared.code).toBe(0);
    expect(compared.output).toMatch(/^Both sides: the second has longer lowerings \(0\.\d s\)/);
    expect(compared.output).toContain(`First: ${films[0].slice(0, 20)}`);
    expect(readFileSync(page, 'utf8')).toContain('<h1>Both sides: the second has longer lowerings');
    expect(existsSync(join(home, 'none.sqlite'))).toBe(false);

    // Beside a saved set, its exercise is the question.
    const one = await run('compare', '1', films[1], '--format', 'json', '--quiet');
    expect(JSON.parse(one.output)).toMatchObject({ exercise: { id: 'squat' }, first: { set: 1 } });
    // A film that is no squat cannot answer.
    const raises = await run('compare', films[0], join(first, 'b.mp4'), '--exercise', 'squat', ...elsewhere);
    expect(raises).toMatchObject({ code: 4, output: '' });
    expect(raises.errors).toMatch(/b\.mp4: .*\nNothing was compared/s);
  }, 120_000);
});
