import { beforeEach, describe, expect, test, vi } from 'vitest';
import { startGraphicsBackend } from '../../../core/pose/graphicsBackend.js';
import { openGraphics } from '../../../core/pose/openGraphics.js';

/** What stands in for the optional packages; an absent name is not installed. */
const packages = new Map<string, object>();
vi.mock('../../../core/optionalPackage.js', () => ({
  importOptional: async (name: string) => packages.get(name) ?? null,
}));
const started = vi.hoisted(() => ({ backend: '', answers: true }));
vi.mock('@tensorflow/tfjs-core', () => ({
  getBackend: () => started.backend,
  setBackend: async (name: string) => {
    started.backend = name;
    return started.answers;
  },
}));

/** The fields of GPUAdapterInfo as W3C WebGPU names them; empty texts where a driver does not say. */
const SILENT = { vendor: '', architecture: '', device: '', description: '' };

/** A stand-in for Dawn whose adapter says this of itself; null: none answers. */
function adapterSaying(info: object | null) {
  const adapter = info === null ? null : { info: { ...SILENT, ...info } };
  const gpu = { requestAdapter: async () => adapter };
  packages.set('webgpu', { create: () => gpu, globals: { GPUStandIn: 'defined' } });
  return gpu;
}

beforeEach(() => {
  packages.clear();
  Object.assign(started, { backend: '', answers: true });
});

describe('a graphics adapter', () => {
  test('is none where the package is absent or nothing answers', async () => {
    expect(await openGraphics()).toEqual({ adapter: null, reason: expect.stringContaining('does not load') });
    adapterSaying(null);
    expect(await openGraphics()).toEqual({ adapter: null, reason: expect.stringContaining('No graphics') });
  });

  test.each([
    [{ device: 'card 9', description: 'driver 5' }, 'card 9 (driver 5)'],
    [{ device: 'card 9', description: 'card 9' }, 'card 9'],
    [{ architecture: 'gen-12', vendor: 'maker' }, 'gen-12'],
    [{ vendor: 'maker' }, 'maker'],
    [{}, 'graphics adapter'],
  ])('that says %o is called %s', async (info, name) => {
    adapterSaying(info);
    expect(await openGraphics()).toMatchObject({ name, software: false });
  });

  test.each([
    [{ device: 'llvmpipe (LLVM 15)' }, true],
    [{ device: 'x', description: 'SwiftShader driver 5.0.0' }, true],
    [{ device: 'x', architecture: 'swiftshader' }, true],
    [{ device: 'Microsoft Basic Render Driver' }, true],
    [{ device: 'card 9', isFallbackAdapter: true }, true],
    [{ device: 'card 9', isFallbackAdapter: false }, false],
  ])('that says %o is software: %s', async (info, software) => {
    adapterSaying(info);
    expect(await openGraphics()).toMatchObject({ software });
  });
});

describe('the backend on a graphics adapter', () => {
  const fault = () =>
    startGraphicsBackend().then(
      () => null,
      (thrown: unknown) => thrown,
    );

  test('starts with the adapter where programs in a browser find it', async () => {
    const gpu = adapterSaying({ device: 'card 9' });
    packages.set('tfjs-backend-webgpu', {});
    const before = Object.getOwnPropertyDescriptor(globalThis, 'navigator');
    try {
      await startGraphicsBackend();
      expect(started.backend).toBe('webgpu');
      expect((globalThis.navigator as unknown as { gpu: unknown }).gpu).toBe(gpu);
      expect(globalThis).toMatchObject({ GPUStandIn: 'defined' });
    } finally {
      Reflect.deleteProperty(globalThis, 'navigator');
      if (before !== undefined) Object.defineProperty(globalThis, 'navigator', before);
    }
  });

  test('is a fault of the installation, with a way out, where anything of it is missing', async () => {
    const expected = { kind: 'installation', remedy: 'Use --accelerator cpu.' };
    adapterSaying(null);
    expect(await fault()).toMatchObject({
      ...expected,
      message: expect.stringContaining('No graphics adapter'),
    });
    adapterSaying({ device: 'card 9' });
    expect(await fault()).toMatchObject({
      ...expected,
      message: expect.stringContaining('tfjs-backend-webgpu'),
    });
    packages.set('tfjs-backend-webgpu', {});
    started.answers = false;
    expect(await fault()).toMatchObject({ ...expected, message: expect.stringContaining('card 9') });
  });
});
