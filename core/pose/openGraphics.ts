import { importOptional } from '../optionalPackage.js';

/** The little of WebGPU (W3C) that is used here; the package's own types need not be installed. */
export interface WebGpu {
  requestAdapter(options: { powerPreference: 'high-performance' }): Promise<WebGpuAdapter | null>;
}

interface WebGpuAdapter {
  readonly info: {
    readonly vendor: string;
    readonly architecture: string;
    readonly device: string;
    readonly description: string;
    readonly isFallbackAdapter?: boolean;
  };
}

interface WebGpuPackage {
  create(options: readonly string[]): WebGpu;
  readonly globals: Readonly<Record<string, unknown>>;
}

export type OpenedGraphics =
  | {
      readonly adapter: WebGpuAdapter;
      readonly gpu: WebGpu;
      readonly globals: Readonly<Record<string, unknown>>;
      readonly name: string;
      readonly software: boolean;
    }
  | { readonly adapter: null; readonly reason: string };

/** Renderers on the processor, should a driver not call itself a fallback: Mesa's two, Chromium's and Windows'. */
const SOFTWARE = /llvmpipe|lavapipe|swiftshader|microsoft basic render/i;

/** Opens this machine's quickest graphics adapter through Dawn, in this process. Drivers may write to standard error. */
export async function openGraphics(): Promise<OpenedGraphics> {
  const dawn = await importOptional<WebGpuPackage>('webgpu');
  if (dawn === null) return { adapter: null, reason: 'The optional package webgpu does not load here.' };
  const gpu = dawn.create([]);
  const adapter = await gpu.requestAdapter({ powerPreference: 'high-performance' });
  if (adapter === null) return { adapter, reason: 'No graphics adapter answers on this machine.' };
  const { vendor, architecture, device, description, isFallbackAdapter } = adapter.info;
  const name = [device, architecture, vendor].find((one) => one !== '') ?? 'graphics adapter';
  const full = description === '' || name === description ? name : `${name} (${description})`;
  const software = isFallbackAdapter === true || SOFTWARE.test(`${full} ${architecture}`);
  return { adapter, gpu, globals: dawn.globals, name: full, software };
}
