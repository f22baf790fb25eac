import { execFileSync } from 'node:child_process';
import { existsSync } from 'node:fs';
import { mkdtemp, rm } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { locateFfmpeg } from '../../core/media/locateFfmpeg.js';
import { findGraphics } from '../../core/pose/graphicsAdapter.js';
import { LARGEST_DIFFERENCE, largestDifference } from '../../core/pose/verifiedPool.js';
import type { InferenceJob } from '../../core/pose/workerMessages.js';
import { startWorkerPool } from '../../core/pose/workerPool.js';
import { PROJECT, runCommand } from './command.js';

const FILM = join(PROJECT, 'fixtures/films/goblet-squats.mp4');
const CHROMIUM = '/usr/lib/chromium';
const SOFTWARE_DRIVER = join(CHROMIUM, 'vk_swiftshader_icd.json');
const NO_DRIVER = '/nonexistent/driver.json';

/**
 * Where the machine has no graphics adapter, Chromium's Vulkan driver on the processor stands in for one. Processes
 * that are started from here on find it.
 */
if (existsSync(SOFTWARE_DRIVER) && process.env['VK_DRIVER_FILES'] === undefined) {
  process.env['VK_DRIVER_FILES'] = SOFTWARE_DRIVER;
  process.env['LD_LIBRARY_PATH'] = [process.env['LD_LIBRARY_PATH'], CHROMIUM].filter(Boolean).join(':');
}
const graphics = await findGraphics();
if (graphics.kind === 'none') console.warn(`Not tested on a graphics adapter: ${graphics.reason}`);

let home: string;
beforeAll(async () => {
  home = await mkdtemp(join(tmpdir(), 'accelerator-'));
});
afterAll(() => rm(home, { recursive: true }));

describe.skipIf(graphics.kind === 'none')('a graphics adapter', () => {
  test('finds the keypoints that the processor finds, within 1 % of the trunk', {
    timeout: 300_000,
  }, async () => {
    const job: InferenceJob = { kind: 'measure', model: 'movenet-lightning', crop: await picture(192) };
    const processor = startWorkerPool(1, 'processor');
    const adapter = startWorkerPool(1, 'graphics');
    try {
      const [expected, found] = await Promise.all([processor.run(job), adapter.run(job)]);
      const difference = largestDifference(found[0]!, expected[0]!);
      expect(difference).not.toBeNull();
      expect(difference).toBeLessThan(LARGEST_DIFFERENCE);
    } finally {
      await Promise.all([processor.close(), adapter.close()]);
    }
  });
});

describe.skipIf(graphics.kind === 'none' || !graphics.software)('a software renderer', () => {
  test('is told of by doctor', { timeout: 120_000 }, async () => {
    const { output } = await runCommand(['doctor'], { home });
    expect(output).toMatch(/Graphics\s[^✓]*software renderer: the processor/);
  });
});

describe('without a graphics adapter', () => {
  const ask = [
    ...['analyze', FILM, '--exercise', 'squat', '--no-save', '--to', '1', '--quality', 'quick'],
    ...['--workers', '1', '--format', 'json', '--accelerator'],
  ];
  const environment = { VK_DRIVER_FILES: NO_DRIVER };

  test('the processor measures, with a note where one was asked for', { timeout: 180_000 }, async () => {
    const asking = { folder: home, environment };
    const asked = await runCommand([...ask, 'gpu'], { ...asking, home: join(home, 'gpu') });
    expect(asked.errors).toContain(
      'No graphics adapter answers on this machine. The processor measures instead.',
    );
    const auto = await runCommand([...ask, 'auto'], { ...asking, home: join(home, 'auto') });
    expect(auto.errors).not.toContain('graphics');
    expect(JSON.parse(asked.output)).toEqual(JSON.parse(auto.output));
    expect(asked.code).toBe(auto.code);
  });

  test('doctor says so and misses nothing', { timeout: 120_000 }, async () => {
    const { output } = await runCommand(['doctor'], { home, environment });
    expect(output).toMatch(/Graphics\s+[^✓]*The processor\s+measures/);
    expect(output).not.toContain('missing:');
  });
});

/** The lifter one second into the demo film, as the program cuts them out: square, in the middle. */
async function picture(side: number): Promise<Uint8Array> {
  const { path } = await locateFfmpeg();
  return execFileSync(path, [
    ...['-v', 'error', '-ss', '1', '-i', FILM, '-frames:v', '1'],
    ...['-vf', `scale=${side}:${side}:force_original_aspect_ratio=decrease,pad=${side}:${side}:-1:-1`],
    ...['-f', 'rawvideo', '-pix_fmt', 'rgb24', '-'],
  ]);
}
