import { mkdtemp, rm, writeFile } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, expect, test } from 'vitest';
import { Failure } from '../../../core/failure.js';
import { readWeightFile, sha256 } from '../../../core/pose/weights.js';

let folder: string;
beforeAll(async () => {
  folder = await mkdtemp(join(tmpdir(), 'weights-'));
});
afterAll(() => rm(folder, { recursive: true }));

// Source: FIPS 180-2, appendix B.1.
test('SHA-256 of "abc"', () => {
  expect(sha256(Buffer.from('abc'))).toBe('ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad');
});

test('a missing file is named with its remedy', async () => {
  const error = await readWeightFile('movenet-thunder.bin', folder).catch((thrown: unknown) => thrown);
  expect(error).toBeInstanceOf(Failure);
  expect((error as Failure).kind).toBe('installation');
  expect((error as Failure).message).toContain('movenet-thunder.bin');
  expect((error as Failure).remedy).toContain('npm run build');
});

test('a damaged file is refused', async () => {
  await writeFile(join(folder, 'movenet-lightning.bin'), 'not the weights');
  await expect(readWeightFile('movenet-lightning.bin', folder)).rejects.toThrow(/damaged/);
});
