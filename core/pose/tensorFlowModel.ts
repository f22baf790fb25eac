import { type Tensor, tensor4d } from '@tensorflow/tfjs-core';
import { KEYPOINT_COUNT } from './keypoints.js';
import { MODEL_SIZE } from './modelFacts.js';
import { loadNetwork } from './network.js';
import type { PoseModel } from './poseModel.js';
import type { PoseModelName } from './track.js';

/**
 * Loads MoveNet for the backend of TensorFlow.js that runs in this thread; where none does, WebAssembly is started.
 *
 * @throws Failure 'installation' where weights or kernels are missing or damaged.
 */
export async function loadTensorFlowModel(name: PoseModelName): Promise<PoseModel> {
  const graph = await loadNetwork(name);
  const size = MODEL_SIZE[name];
  return {
    name,
    size,
    async infer(crop) {
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
