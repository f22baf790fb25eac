import { importOptional } from '../optionalPackage.js';
import { MODEL_SIZE } from './modelFacts.js';
import type { PoseModel } from './poseModel.js';
import { readPose } from './readPose.js';
import type { PoseModelName } from './track.js';
import { readWeightFile } from './weights.js';

/** The little of onnxruntime-node that is used here; the package need not be installed. */
interface NativeRuntime {
  readonly InferenceSession: {
    create(
      network: Uint8Array,
      options: { readonly intraOpNumThreads: number; readonly interOpNumThreads: number },
    ): Promise<NativeSession>;
  };
  readonly Tensor: new (type: 'uint8', content: Uint8Array, shape: readonly number[]) => object;
}

interface NativeSession {
  run(inputs: { readonly picture: object }): Promise<Readonly<Record<string, { readonly data: unknown }>>>;
}

/**
 * Loads MoveNet for ONNX Runtime, which uses the processor's own wide instructions: about four times as quick as
 * WebAssembly, with keypoints equal to a millionth of the picture (tests/end-to-end/poseModel.test.ts).
 *
 * It must not run in a worker thread: ending a thread while it infers ends the whole process.
 *
 * @returns null where the optional package is not installed or has no build for this machine.
 * @throws Failure 'installation' where the network's file is missing or damaged.
 */
export async function loadNativeModel(name: PoseModelName): Promise<PoseModel | null> {
  const runtime = await loadRuntime();
  if (runtime === null) return null;
  // One thread each, as many processes as there are cores: no cheaper way to fill them, and the sums stay the same.
  const session = await runtime.InferenceSession.create(await readWeightFile(`${name}.onnx`), {
    intraOpNumThreads: 1,
    interOpNumThreads: 1,
  });
  const size = MODEL_SIZE[name];
  return {
    name,
    size,
    async infer(crop) {
      const maps = await session.run({ picture: new runtime.Tensor('uint8', crop, [1, size, size, 3]) });
      const values = (head: string) => maps[head]!.data as Float32Array;
      return readPose({
        side: size / 4,
        heatmap: values('heatmap'),
        center: values('center'),
        regression: values('regression'),
        offset: values('offset'),
      });
    },
  };
}

/** Whether the native runtime is installed and loads on this machine. */
export async function hasNativeRuntime(): Promise<boolean> {
  return (await loadRuntime()) !== null;
}

let loading: Promise<NativeRuntime | null> | null = null;

function loadRuntime(): Promise<NativeRuntime | null> {
  loading ??= importOptional<{ readonly default: NativeRuntime }>('onnxruntime-node').then(
    (module) => module?.default ?? null,
  );
  return loading;
}
