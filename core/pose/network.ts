import { setWasmPaths } from '@tensorflow/tfjs-backend-wasm';
import type { GraphModel } from '@tensorflow/tfjs-converter';
import { loadGraphModel } from '@tensorflow/tfjs-converter';
import { env, getBackend, type io, setBackend } from '@tensorflow/tfjs-core';
import { Failure } from '../failure.js';
import type { Backend } from './accelerator.js';
import { startGraphicsBackend } from './graphicsBackend.js';
import { type Network, readWeightFile, weightsFolder } from './weights.js';

let started: Promise<void> | null = null;

/**
 * Starts a backend of TensorFlow.js once in this thread; the first call decides which.
 *
 * Only these two are ever registered: the plain JavaScript one would answer too, thirty times slower.
 *
 * @throws Failure 'installation' where the backend does not start or has no kernels or adapter.
 */
export function startBackend(backend: Backend = 'processor'): Promise<void> {
  started ??= backend === 'processor' ? startProcessorBackend() : startGraphicsBackend();
  return started;
}

async function startProcessorBackend(): Promise<void> {
  await Promise.all([
    readWeightFile('tfjs-backend-wasm-simd.wasm'),
    readWeightFile('tfjs-backend-wasm.wasm'),
  ]);
  setWasmPaths(weightsFolder());
  const runs = await setBackend('wasm');
  if (!runs || getBackend() !== 'wasm') {
    throw new Failure('installation', 'The pose model’s WebAssembly backend does not start.', REMEDY);
  }
  if (!(await env().getAsync('WASM_HAS_SIMD_SUPPORT'))) {
    throw new Failure('installation', 'This Node.js runs WebAssembly without SIMD instructions.', REMEDY);
  }
}

/** Loads a network from disk, checked, with the backend started. */
export async function loadNetwork(network: Network): Promise<GraphModel> {
  await startBackend();
  return loadGraphModel(await networkHandler(network));
}

/** The network's two files as TensorFlow.js wants them handed over. */
export async function networkHandler(network: Network): Promise<io.IOHandler> {
  const [topology, weights] = await Promise.all([
    readWeightFile(`${network}.json`),
    readWeightFile(`${network}.bin`),
  ]);
  const description = JSON.parse(topology.toString('utf8')) as io.ModelJSON;
  // A file that is read whole has its memory to itself: another ten megabytes a process would lie about as long as it runs.
  const weightData =
    weights.byteLength === weights.buffer.byteLength
      ? weights.buffer
      : weights.buffer.slice(weights.byteOffset, weights.byteOffset + weights.byteLength);
  return {
    load: async () => ({
      modelTopology: description.modelTopology,
      format: 'graph-model',
      ...(description.signature === undefined ? {} : { signature: description.signature }),
      weightSpecs: description.weightsManifest.flatMap((group) => group.weights),
      weightData: weightData as ArrayBuffer,
    }),
  };
}

const REMEDY = 'Use Node.js 20 or later on a 64-bit machine; `tempofilm doctor` shows what is missing.';
