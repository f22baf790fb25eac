import { describe, expect, it } from 'vitest';
import { EXIT, exitCodeOf, highestExitCode } from '../../cli/exitCode.js';

describe('exit codes', () => {
  it.each([
    ['usage', 2],
    ['film', 3],
    ['history', 5],
    ['installation', 6],
    ['interrupted', 130],
  ] as const)('%s ends with %i', (kind, code) => {
    expect(exitCodeOf(kind)).toBe(code);
  });

  it('takes the highest of several films', () => {
    expect(highestExitCode([EXIT.answered, EXIT.cannotAnswer, EXIT.unreadableFilm])).toBe(4);
    expect(highestExitCode([])).toBe(0);
  });
});
