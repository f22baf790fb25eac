import { findGraphics, type Graphics } from './graphicsAdapter.js';
import type { Accelerator } from './modelFacts.js';

/** Where the networks run: on the processor, or on a graphics adapter. */
export type Backend = 'processor' | 'graphics';

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
  if (accelerator === 'cpu') return 'processor';
  const graphics = await find();
  if (graphics.kind === 'none') {
    if (accelerator === 'gpu') note(`${graphics.reason} The processor measures instead.`);
    return 'processor';
  }
  if (!graphics.software) return 'graphics';
  if (accelerator === 'auto') return 'processor';
  note(`${graphics.name} is a software renderer: the processor itself (--accelerator cpu) is quicker.`);
  return 'graphics';
}
