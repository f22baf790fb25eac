import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeEach, describe, expect, test, vi } from 'vitest';
import { hostOf, type InferenceHost } from '../../../core/pose/inferenceHost.js';
import type { AnswerMessage, JobMessage } from '../../../core/pose/workerMessages.js';

const folder = mkdtempSync(join(tmpdir(), 'tempofilm-test-'));
afterAll(() => rmSync(folder, { recursive: true, force: true }));
const asked = vi.hoisted(() => ({ program: '', native: true }));
vi.mock('../../../core/pose/builtProgram.js', () => ({
  builtProgram: (name: string) => {
    asked.program = name;
    return join(folder, `${name}.mjs`);
  },
}));
vi.mock('node:module', () => ({
  createRequire: () => ({
    resolve: () => {
      if (!asked.native) throw new Error('not installed');
    },
  }),
}));

/** Programs that answer each job with its number, and end at the number 13. */
const ANSWER = '(job) => { if (job.id === 13) process.exit(3); answer({ id: job.id, kind: "result" }); }';
const PROCESS = `const answer = (message) => process.send(message); process.on('message', ${ANSWER});`;
const THREAD = `import { parentPort } from 'node:worker_threads';
const answer = (message) => parentPort.postMessage(message); parentPort.on('message', ${ANSWER});`;
for (const name of ['workerProcess.js', 'graphicsWorker.js'])
  writeFileSync(join(folder, `${name}.mjs`), PROCESS);
writeFileSync(join(folder, 'worker.js.mjs'), THREAD);

beforeEach(() => Object.assign(asked, { program: '', native: true }));

const jobOf = (id: number): JobMessage => ({ id, job: { kind: 'look', picture: new Uint8Array(3) } });

/** Starts a host, and what it tells as promises. */
function started(backend: 'processor' | 'graphics') {
  const answers: number[] = [];
  let onAnswer: () => void = () => {};
  let onEnd: (cause: unknown) => void = () => {};
  const ended = new Promise<unknown>((settle) => {
    onEnd = settle;
  });
  const host: InferenceHost = hostOf(backend)({
    onAnswer: ({ id }: AnswerMessage) => {
      answers.push(id);
      onAnswer();
    },
    onEnd: (cause) => onEnd(cause),
  });
  const answered = (count: number) =>
    new Promise<void>((settle) => {
      onAnswer = () => void (answers.length >= count && settle());
      onAnswer();
    });
  return { host, answers, answered, ended };
}

describe.each([
  ['the native runtime', 'processor', true, 'workerProcess.js'],
  ['no native runtime', 'processor', false, 'worker.js'],
  ['a graphics adapter', 'graphics', false, 'graphicsWorker.js'],
] as const)('with %s', (_name, backend, native, program) => {
  test(`${program} answers its jobs in order and is ended`, async () => {
    asked.native = native;
    const { host, answers, answered, ended } = started(backend);
    expect(asked.program).toBe(program);
    for (const id of [1, 2, 3]) host.post(jobOf(id));
    await answered(3);
    expect(answers).toEqual([1, 2, 3]);
    await host.end();
    expect(await ended).toBeInstanceOf(Error);
    // A job for one that has ended is lost without a word: whoever listens has been told of the end.
    host.post(jobOf(4));
    await host.end();
    expect(answers).toEqual([1, 2, 3]);
  });

  test(`${program} that ends by itself tells with which exit code`, async () => {
    asked.native = native;
    const { host, ended } = started(backend);
    host.post(jobOf(13));
    expect(String(await ended)).toContain('exit code 3');
  });
});
