import { describe, expect, test } from 'vitest';
import { chooseBackend } from '../../../core/pose/accelerator.js';
import type { Graphics } from '../../../core/pose/graphicsAdapter.js';
import type { Accelerator } from '../../../core/pose/modelFacts.js';

const CARD: Graphics = { kind: 'adapter', name: 'a card', software: false };
const RENDERER: Graphics = { kind: 'adapter', name: 'a renderer', software: true };
const NONE: Graphics = { kind: 'none', reason: 'None is there.' };

async function choose(accelerator: Accelerator, graphics: Graphics) {
  const notes: string[] = [];
  const backend = await chooseBackend(
    accelerator,
    (note) => notes.push(note),
    async () => graphics,
  );
  return { backend, notes };
}

describe('the backend to measure with', () => {
  test('is the processor where that is asked for, without looking for anything else', async () => {
    const never = () => Promise.reject(new Error('looked'));
    expect(await chooseBackend('cpu', () => undefined, never)).toBe('processor');
  });

  test('is a graphics card by itself', async () => {
    expect(await choose('auto', CARD)).toEqual({ backend: 'graphics', notes: [] });
    expect(await choose('gpu', CARD)).toEqual({ backend: 'graphics', notes: [] });
  });

  test('is a software renderer only where asked for, with a note', async () => {
    expect(await choose('auto', RENDERER)).toEqual({ backend: 'processor', notes: [] });
    const { backend, notes } = await choose('gpu', RENDERER);
    expect(backend).toBe('graphics');
    expect(notes).toEqual([expect.stringContaining('a renderer is a software renderer')]);
  });

  test('falls back to the processor, with a note where a graphics adapter was asked for', async () => {
    expect(await choose('auto', NONE)).toEqual({ backend: 'processor', notes: [] });
    expect(await choose('gpu', NONE)).toEqual({
      backend: 'processor',
      notes: ['None is there. The processor measures instead.'],
    });
  });
});
