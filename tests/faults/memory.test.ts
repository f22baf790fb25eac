import { execFileSync } from 'node:child_process';
import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { expect, test } from 'vitest';
import { locateFfmpeg } from '../../core/media/locateFfmpeg.js';
import { decodeMemory } from '../../fixtures/memory/decodeMemory.js';
import { PROJECT } from '../end-to-end/command.js';

// Ten minutes beside half a minute by `npm run memory`.
test('three minutes of film need no more memory than one', { timeout: 180_000 }, async () => {
  const folder = mkdtempSync(join(tmpdir(), 'tempofilm-test-'));
  try {
    const { path } = await locateFfmpeg();
    // A third of the pictures in the same time: each that was kept would still show as a tenth of a megabyte. The short
    // film is long enough for the heap to have grown as far as it does by itself.
    const film = join(folder, 'ten-frames-a-second.mp4');
    const demo = join(PROJECT, 'fixtures/films/goblet-squats.mp4');
    execFileSync(path, ['-v', 'error', '-itsscale', '3', '-i', demo, '-c', 'copy', '-an', film]);
    const program = join(PROJECT, 'dist/fixtures/memory/decodeAndCut.js');
    const one = await decodeMemory(film, 60, folder, path, program);
    const other = await decodeMemory(film, 60, folder, path, program);
    // How far the heap grows by itself differs from run to run by as much as is allowed here.
    const short = one.peakMegabytes > other.peakMegabytes ? one : other;
    const long = await decodeMemory(film, 180, folder, path, program);
    expect(long.framesInFilm / short.framesInFilm).toBeCloseTo(3, 1);
    expect(long.framesHandedOn).toBeGreaterThan(2.5 * short.framesHandedOn);
    expect(long.peakMegabytes).toBeLessThan(1.1 * short.peakMegabytes);
  } finally {
    rmSync(folder, { recursive: true, force: true });
  }
});
