import { defineConfig } from 'vitest/config';
import { LongestFirst } from './tests/longestFirst.js';

export default defineConfig({
  test: {
    include: ['tests/**/*.test.ts'],
    globalSetup: ['tests/sharedTracks.ts'],
    sequence: { sequencer: LongestFirst },
    testTimeout: 20_000,
    hookTimeout: 120_000,
    // Inference already uses every core; more test files at once only slow each other down.
    maxWorkers: 2,
    // Analyses make many short-lived arrays: with the usual nursery a third of their time goes into collecting them.
    execArgv: ['--max-semi-space-size=32'],
    coverage: {
      provider: 'v8',
      include: ['core/**', 'analysis/**'],
      reporter: ['text-summary', 'json-summary'],
    },
  },
});
