import { type Tensor, tensor4d } from '@tensorflow/tfjs-core';
import { MODEL_SIZE } from './modelFacts.js';
import { loadNetwork } from './network.js';
import type { PoseModel } from './poseModel.js';
import { readPose } from './readPose.js';
import type { PoseModelName } from './track.js';

/** The published network's steps that end in the maps from which `readPose` reads; what follows them is not run. */
const HEADS = {
  heatmap: 'StatefulPartitionedCall/Sigmoid',
  center: 'StatefulPartitionedCall/truediv_2',
  regression: 'StatefulPartitionedCall/kpt_regress_0/conv2d_6/BiasAdd',
  offset: 'StatefulPartitionedCall/kpt_offset_0/conv2d_7/BiasAdd',
} as const;

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
      const maps = graph.execute(input, Object.values(HEADS)) as Tensor[];
      input.dispose();
      const [heatmap, center, regression, offset] = await Promise.all(maps.map(read));
      return readPose({
        side: size / 4,
        heatmap: heatmap!,
        center: center!,
        regression: regression!,
        offset: offset!,
      });
    },
  };
}

async function read(map: Tensor): Promise<Float32Array> {
  const values = (await map.data()) as Float32Array;
  map.dispose();
  return values;
}
