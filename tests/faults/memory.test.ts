import { execFileSync } from 'node:child_process';
import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { expect, test } from 'vitest';
import { locateFfmpeg } from '../../core/media/locateFfmpeg.js';
import { decodeMemory } from '../../fixtures/memory/decodeMemory.js';
import { PROJECT } from '../end-to-end/command.js';

/** Seventeen keypoints as objects take under 2 kB, the smallest picture handed on 100 kB. */
const POSE_MEGABYTES = 0.003;
const PICTURE_MEGABYTES = 0.1;

// Ten minutes beside half a minute by `npm run memory`.
test('three minutes of film need no more memory than one', { timeout: 180_000 }, async () => {
  const folder = mkdtempSync(join(tmpdir(), 'tempofilm-test-'));
  try {
    const { path } = await locateFfmpeg();
    // A third of the pictures in the same time: each that was kept would still show as a tenth of a megabyte.
    const film = join(folder, 'ten-frames-a-second.mp4');
    const demo = join(PROJECT, 'fixtures/films/goblet-squats.mp4');
    execFileSync(path, ['-v', 'error', '-itsscale', '3', '-i', demo, '-c', 'copy', '-an', film]);
    const program = join(PROJECT, 'dist/fixtures/memory/decodeAndCut.js');
    const decode = (seconds: number) => decodeMemory(film, seconds, folder, path, program, ['--expose-gc']);
    const short = await decode(60);
    const long = await decode(180);
    expect(long.framesInFilm / short.framesInFilm).toBeCloseTo(3, 1);
    const moreFrames = long.framesHandedOn - short.framesHandedOn;
    expect(moreFrames).toBeGreaterThan(1.5 * short.framesHandedOn);
    // What is in use after clearing the heap does not differ from run to run: a frame leaves its pose behind, no more.
    expect(long.heldMegabytes! - short.heldMegabytes!).toBeLessThan(moreFrames * POSE_MEGABYTES);
    // How far a process grows by itself does differ, so this only sees pictures kept where the heap does not know them.
    expect(long.peakMegabytes - short.peakMegabytes).toBeLessThan((moreFrames * PICTURE_MEGABYTES) / 5);
  } finally {
    rmSync(folder, { recursive: true, force: true });
  }
});
