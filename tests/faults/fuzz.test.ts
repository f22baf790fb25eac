import { expect, test } from 'vitest';
import { locateFfmpeg } from '../../core/media/locateFfmpeg.js';
import { fuzzCommand } from '../../fixtures/fuzz/fuzzCommand.js';
import { PROGRAM } from '../end-to-end/command.js';

// Ten times as many of each by `npm run fuzz`.
test('damaged films and malformed options end in one clear line and a documented exit code', async () => {
  const summary = await fuzzCommand({
    program: PROGRAM,
    ffmpegPath: (await locateFfmpeg()).path,
    seed: 1000,
    films: 50,
    optionSets: 50,
    atOnce: 2,
  });
  expect(summary.complaints).toEqual([]);
  expect(summary.cases).toBe(100);
  // The cases are of every kind: refused, read in part, and wrong options.
  for (const code of ['2', '3', '4']) expect(summary.codes[code] ?? 0).toBeGreaterThan(0);
}, 900_000);
