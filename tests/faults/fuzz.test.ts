import { expect, test, vi } from 'vitest';
import { locateFfmpeg } from '../../core/media/locateFfmpeg.js';
import { type FuzzSummary, fuzzCommand } from '../../fixtures/fuzz/fuzzCommand.js';
import { type Execute, executeBuilt } from '../../fixtures/fuzz/runCase.js';
import { PROGRAM } from '../end-to-end/command.js';
import { runInProcess } from '../end-to-end/runInProcess.js';

vi.mock('../../core/pose/workerPool.js', () => import('../end-to-end/poolInProcess.js'));

/** Every so many cases one goes through the built command, as all of `npm run fuzz` do: ten times as many of each. */
const BUILT_EVERY = 10;
const CASES = 50;

const executeInProcess: Execute = async (parameters, { folder, environment }) => ({
  ...(await runInProcess(parameters, { home: environment['TEMPOFILM_HOME']!, folder, environment })),
  hung: false,
});

async function fuzz(count: { readonly films: number; readonly optionSets: number }): Promise<FuzzSummary> {
  const built = executeBuilt(PROGRAM);
  let cases = 0;
  return fuzzCommand({
    execute: (parameters, surroundings) => {
      cases += 1;
      return (cases % BUILT_EVERY === 0 ? built : executeInProcess)(parameters, surroundings);
    },
    ffmpegPath: (await locateFfmpeg()).path,
    seed: 1000,
    ...count,
    // Those in this process share its surroundings.
    atOnce: 1,
  });
}

test('damaged films end in one clear line and a documented exit code', async () => {
  const { complaints, cases, codes } = await fuzz({ films: CASES, optionSets: 0 });
  expect(complaints).toEqual([]);
  expect(cases).toBe(CASES);
  // Some are refused, and some are read as far as they go.
  for (const code of ['3', '4']) expect(codes[code] ?? 0).toBeGreaterThan(0);
}, 450_000);

test('malformed options and plans end in one clear line and a documented exit code', async () => {
  const { complaints, cases, codes } = await fuzz({ films: 0, optionSets: CASES });
  expect(complaints).toEqual([]);
  expect(cases).toBe(CASES);
  expect(codes['2'] ?? 0).toBeGreaterThan(0);
}, 450_000);
