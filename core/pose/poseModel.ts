import { type Tensor, tensor4d } from '@tensorflow/tfjs-core';
import { KEYPOINT_COUNT } from './keypoints.js';
import { MODEL_SIZE } from './modelFacts.js';
import { loadNativeModel } from './nativeModel.js';
import { loadNetwork } from './network.js';
import type { PoseModelName } from './track.js';

/** A pose network for one person, ready to run in this thread. */
export interface PoseModel {
  readonly name: PoseModelName;
  /** Side of the square input in pixels. */
  readonly size: number;
  /**
   * Keypoints of the person nearest the middle of a square picture.
   *
   * @param crop red, green, blue, one byte each, `size × size` pixels, row by row.
   * @returns 17 × 3 values, keypoint after keypoint in the order of `KEYPOINTS`: x and y as fractions of the
   *   crop (0 left and top, 1 right and bottom), then the score, 0 to 1.
   */
  infer(crop: Uint8Array): Promise<Float32Array>;
}

export interface PoseModelOptions {
  /** Use the native runtime where it is installed; never in a worker thread (see `loadNativeModel`). */
  readonly native?: boolean;
}

/**
 * Loads MoveNet from disk: for the native runtime where it may and can be used, else for the backend of TensorFlow.js
 * that runs in this thread; where none does, WebAssembly is started.
 *
 * The graph is called directly and keeps no state: the same crop gives the same keypoints whatever came
 * before it.
 *
 * @throws Failure 'installation' where weights or kernels are missing or damaged.
 */
export async function loadPoseModel(name: PoseModelName, options: PoseModelOptions = {}): Promise<PoseModel> {
  const native = options.native === true ? await loadNativeModel(name) : null;
  return native ?? loadTensorFlowModel(name);
}

async function loadTensorFlowModel(name: PoseModelName): Promise<PoseModel> {
  const graph = await loadNetwork(name);
  const size = MODEL_SIZE[name];
  return {
    name,
    size,
    async infer(crop) {
      if (crop.length !== size * size * 3) {
        throw new Error(`${name} takes ${size} × ${size} pixels, got ${crop.length} bytes`);
      }
      const input = tensor4d(Int32Array.from(crop), [1, size, size, 3], 'int32');
      const output = graph.execute(input) as Tensor;
      input.dispose();
      const values = (await output.data()) as Float32Array;
      output.dispose();
      return toCropPoints(values);
    },
  };
}

/** The network answers y, x, score; everything here counts x first. */
function toCropPoints(values: Float32Array): Float32Array {
  const points = new Float32Array(KEYPOINT_COUNT * 3);
  for (let keypoint = 0; keypoint < KEYPOINT_COUNT; keypoint++) {
    points[keypoint * 3] = values[keypoint * 3 + 1]!;
    points[keypoint * 3 + 1] = values[keypoint * 3]!;
    points[keypoint * 3 + 2] = values[keypoint * 3 + 2]!;
  }
  return points;
}
