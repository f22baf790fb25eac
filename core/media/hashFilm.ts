import { createHash, type Hash } from 'node:crypto';
import { open } from 'node:fs/promises';

/** How much of a film the caches go by; less could not tell apart films that were cut by a moment. */
export const CACHE_SAMPLE_BYTES = 1024 * 1024;

/**
 * Starts a SHA-256 over what tells films apart without reading all of one: its size and its first, middle and last
 * `sampleBytes` bytes (a container's index lies at one end and changes with any frame). The caller may add to it.
 *
 * @throws the file system's own error where the file cannot be read
 */
export async function hashFilm(file: string, sampleBytes: number): Promise<Hash> {
  const hash = createHash('sha256');
  const handle = await open(file, 'r');
  try {
    const { size } = await handle.stat();
    hash.update(`${size}\n`);
    const sample = Buffer.alloc(sampleBytes);
    for (const start of [0, Math.floor((size - sampleBytes) / 2), size - sampleBytes]) {
      const { bytesRead } = await handle.read(sample, 0, sampleBytes, Math.max(0, start));
      hash.update(sample.subarray(0, bytesRead));
    }
  } finally {
    await handle.close();
  }
  return hash;
}
