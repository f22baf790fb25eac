import { mkdtemp, readFile, rm } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { writePacingTrack } from '../../../cli/pace/writePacingTrack.js';

describe('writePacingTrack', () => {
  let folder = '';
  beforeEach(async () => {
    folder = await mkdtemp(join(tmpdir(), 'tempofilm-pace-'));
  });
  afterEach(() => rm(folder, { recursive: true }));

  it('writes the track and says what is on it', async () => {
    const output = join(folder, 'pace.wav');
    const said = await writePacingTrack('4-0-1-1', { reps: '8', exercise: 'curl', output });
    expect(said).toContain('8 × lower for 4 s, no pause, lift in 1 s, squeeze for 1 s');
    // 4 s count-in, 8 reps of 6 s, and the tone at the end; 44-byte header and two bytes a sample.
    const bytes = (await readFile(output)).length;
    expect((bytes - 44) / 2 / 44_100).toBeCloseTo(4 + 48 + 0.7, 3);
  });

  it('leaves a file alone unless told otherwise', async () => {
    const output = join(folder, 'pace.wav');
    await writePacingTrack(undefined, { stage: ['2-0-1-0:1'], output });
    await expect(writePacingTrack(undefined, { stage: ['2-0-1-0:2'], output })).rejects.toThrow(output);
    const said = await writePacingTrack(undefined, { stage: ['2-0-1-0:2'], output, force: true });
    expect(said).toContain('2 × lower for 2 s');
  });

  it.each([
    [undefined, {}, 'Which tempo'],
    ['4-0-1-1', {}, 'how many reps'],
    ['4-0-y-1', { reps: '8' }, '"y" is not'],
    ['4-0-1-1', { reps: '8', stage: ['2-0-1-0:1'] }, 'stated twice'],
    [undefined, { stage: ['2-0-1-0'] }, 'no reps'],
    ['4-0-1-1', { reps: '8', exercise: 'sqaut' }, 'There is no exercise'],
  ])('refuses %s with %o', async (tempo, options, reason) => {
    await expect(writePacingTrack(tempo, { ...options, output: join(folder, 'x.wav') })).rejects.toThrow(
      reason,
    );
  });
});
