import { findGraphics } from '../../core/pose/graphicsAdapter.js';
import { MODEL_SIZE } from '../../core/pose/modelFacts.js';
import type { InferenceJob } from '../../core/pose/workerMessages.js';
import { startWorkerPool } from '../../core/pose/workerPool.js';
import type { Check } from './check.js';

/** A graphics adapter is a gain, never needed: its absence is no fault. */
export async function checkGraphics(): Promise<Check> {
  const graphics = await findGraphics();
  const check = (state: Check['state'], detail: string, remedy: string | null = null): Check => ({
    ...{ name: 'Graphics', state, detail, remedy },
  });
  if (graphics.kind === 'none') {
    return check('ok', `${graphics.reason} The processor measures.`);
  }
  if (graphics.software) {
    return check('ok', `${graphics.name}, a software renderer: the processor measures`);
  }
  try {
    return check('ok', `${graphics.name}, ${await millisecondsOfPicture()} ms a frame`);
  } catch (error) {
    const [reason] = (error instanceof Error ? error.message : String(error)).split('\n');
    return check('mind', `${graphics.name} can't be used: ${reason}`, 'The processor measures instead.');
  }
}

async function millisecondsOfPicture(): Promise<number> {
  const model = 'movenet-thunder';
  const crop = new Uint8Array(MODEL_SIZE[model] ** 2 * 3).fill(128);
  const job: InferenceJob = { kind: 'measure', model, crop };
  const pool = startWorkerPool(1, 'graphics');
  try {
    await pool.run(job);
    const before = pool.busyMilliseconds();
    await pool.run(job);
    return Math.round(pool.busyMilliseconds() - before);
  } finally {
    await pool.close();
  }
}
