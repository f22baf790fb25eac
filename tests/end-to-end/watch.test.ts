import { type ChildProcess, execFileSync } from 'node:child_process';
import {
  appendFileSync,
  copyFileSync,
  existsSync,
  mkdirSync,
  readdirSync,
  readFileSync,
  statSync,
  writeFileSync,
} from 'node:fs';
import { join } from 'node:path';
import { setTimeout as wait } from 'node:timers/promises';
import { beforeAll, expect, it, vi } from 'vitest';
import { locateFfmpeg } from '../../core/media/locateFfmpeg.js';
import { runCommand } from './command.js';
import { runInProcess } from './runInProcess.js';
import { temporaryHome } from './temporaryHome.js';

vi.setConfig({ testTimeout: 120_000 });
vi.mock('../../core/pose/workerPool.js', () => import('./poolInProcess.js'));

const home = temporaryHome();

/** A film without anybody. */
const room = join(home, 'room.mp4');
beforeAll(async () => {
  const source = ['-f', 'lavfi', '-i', 'color=gray:size=320x240:rate=10:duration=2', '-pix_fmt', 'yuv420p'];
  execFileSync((await locateFfmpeg()).path, ['-v', 'error', ...source, room]);
});

// While one waits, the other works.
it.concurrent('watch answers each film once, beside it, with the plan found there', async () => {
  const folder = join(home, 'films');
  mkdirSync(folder);
  copyFileSync(room, join(folder, 'room.mp4'));
  writeFileSync(join(folder, 'text.mp4'), 'not a film\n');
  writeFileSync(join(folder, 'plan.yaml'), 'exercises:\n  - { exercise: curl, tempo: 4-0-1-1, reps: 8 }\n');
  const watch = () => runInProcess(['watch', folder, '--once', '--quality', 'quick'], { home });

  const first = await watch();
  // The film without anyone can't answer (4); the text is no film (3): the higher one counts.
  expect(first.code).toBe(4);
  const answer = join(folder, 'room.tempofilm.txt');
  expect(readFileSync(answer, 'utf8')).toContain('Plan: lower for 4 s');
  expect(readdirSync(folder)).toContain('text.tempofilm.txt');

  const { mtimeMs } = statSync(answer);
  expect((await watch()).code).toBe(0);
  expect(statSync(answer).mtimeMs).toBe(mtimeMs);
});

it.concurrent('watch waits for a slow copy, and a restart after being killed answers what is left', async () => {
  const folder = join(home, 'slow');
  mkdirSync(folder);
  const whole = readFileSync(room);
  const film = join(folder, 'slow.mp4');
  const answer = join(folder, 'slow.tempofilm.txt');
  const parameters = ['watch', folder, '--exercise', 'curl', '--quality', 'quick', '--no-save'];

  writeFileSync(film, whole.subarray(0, 100));
  let child: ChildProcess | null = null;
  const running = runCommand(parameters, {
    home,
    whenStarted: (one) => {
      child = one;
    },
  });
  // Twelve seconds of copying, each pause shorter than the time between two looks.
  for (let part = 1; part <= 6; part++) {
    await wait(2000);
    expect(existsSync(answer)).toBe(false);
    appendFileSync(film, whole.subarray(100 * part, part === 6 ? undefined : 100 * (part + 1)));
  }
  (child as ChildProcess | null)?.kill('SIGKILL');
  expect((await running).signal).toBe('SIGKILL');
  expect(readdirSync(folder)).toEqual(['slow.mp4']);

  expect((await runCommand([...parameters, '--once'], { home })).code).toBe(4);
  expect(readFileSync(answer, 'utf8')).toContain('no person was found');
});
