import { expect, test, vi } from 'vitest';
import { findGraphics } from '../../core/pose/graphicsAdapter.js';
import { startWorkerPool } from '../../core/pose/workerPool.js';

vi.setConfig({ testTimeout: 60_000 });

test('the search for a graphics adapter answers once, and an adapter that it finds starts', async () => {
  const graphics = await findGraphics();
  expect(await findGraphics()).toBe(graphics);
  if (graphics.kind === 'none') {
    expect(graphics.reason).toMatch(/^[A-Z].*\.$/);
    return;
  }
  expect(graphics.name).not.toBe('');
  const pool = startWorkerPool(1, 'graphics');
  await pool.close();
});
