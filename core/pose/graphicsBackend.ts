import { getBackend, setBackend } from '@tensorflow/tfjs-core';
import { Failure } from '../failure.js';
import { importOptional } from '../optionalPackage.js';
import { openGraphics } from './openGraphics.js';

/**
 * Starts the WebGPU backend of TensorFlow.js in this process.
 *
 * The backend asks for `navigator.gpu` when it is imported, so that this comes first.
 *
 * @throws Failure 'installation' where there is no adapter or it does not start.
 */
export async function startGraphicsBackend(): Promise<void> {
  const opened = await openGraphics();
  if (opened.adapter === null) throw new Failure('installation', opened.reason, REMEDY);
  Object.assign(globalThis, opened.globals);
  Object.defineProperty(globalThis, 'navigator', { value: { gpu: opened.gpu }, configurable: true });
  // An alias of @tensorflow/tfjs-backend-webgpu: under that name lies the stub that pose-detection imports.
  const backend = await importOptional<object>('tfjs-backend-webgpu');
  if (backend === null) {
    throw new Failure('installation', 'The optional package tfjs-backend-webgpu does not load here.', REMEDY);
  }
  const runs = await setBackend('webgpu');
  if (!runs || getBackend() !== 'webgpu') {
    throw new Failure('installation', `The pose model does not start on ${opened.name}.`, REMEDY);
  }
}

const REMEDY = 'Use --accelerator cpu.';
