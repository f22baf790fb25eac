import { findGraphics, type Graphics } from './graphicsAdapter.js';
import type { Accelerator } from './modelFacts.js';

/** The backend of TensorFlow.js: WebAssembly on the processor, or WebGPU on a graphics adapter. */
export type Backend = 'wasm' | 'webgpu';

/**
 * Which backend to measure with. `auto` takes a graphics adapter only where one exists that is not a software
 * renderer; `gpu` takes any, and falls back to the processor where there is none.
 *
 * @param note told in one line why a graphics adapter that was asked for is not used, or is no gain.
 */
export async function chooseBackend(
  accelerator: Accelerator,
  note: (message: string) => void,
  find: () => Promise<Graphics> = findGraphics,
): Promise<Backend> {
  if (accelerator === 'cpu') return 'wasm';
  const graphics = await find();
  if (graphics.kind === 'none') {
    if (accelerator === 'gpu') note(`${graphics.reason} The processor measures instead.`);
    return 'wasm';
  }
  if (!graphics.software) return 'webgpu';
  if (accelerator === 'auto') return 'wasm';
  note(`${graphics.name} is a software renderer: the processor itself (--accelerator cpu) is quicker.`);
  return 'webgpu';
}
