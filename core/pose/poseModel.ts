import { loadNativeModel } from './nativeModel.js';
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
  // A process that runs natively does without the 30 MB of TensorFlow.js.
  const model = native ?? (await (await import('./tensorFlowModel.js')).loadTensorFlowModel(name));
  const { size } = model;
  return {
    name,
    size,
    async infer(crop) {
      if (crop.length !== size * size * 3) {
        throw new Error(`${name} takes ${size} × ${size} pixels, got ${crop.length} bytes`);
      }
      return model.infer(crop);
    },
  };
}
