import { createHash } from 'node:crypto';
import { open } from 'node:fs/promises';

const SAMPLE_BYTES = 256 * 1024;

/**
 * Identifies a film by what is in it, whatever it is called: its size and a hash of its beginning, middle and end
 * (a container's index lies at one end and changes with any frame). Reads less than a megabyte.
 */
export async function filmKey(file: string): Promise<string> {
  const hash = createHash('sha256');
  const handle = await open(file, 'r');
  try {
    const { size } = await handle.stat();
    hash.update(`${size}\n`);
    const sample = Buffer.alloc(SAMPLE_BYTES);
    for (const start of [0, Math.floor((size - SAMPLE_BYTES) / 2), size - SAMPLE_BYTES]) {
      const { bytesRead } = await handle.read(sample, 0, SAMPLE_BYTES, Math.max(0, start));
      hash.update(sample.subarray(0, bytesRead));
    }
  } finally {
    await handle.close();
  }
  return hash.digest('hex');
}
