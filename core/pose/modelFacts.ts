import type { PoseModelName, Quality } from './track.js';

/*
 * Apart from the code that runs the models, so that a film measured earlier is scored again without loading
 * TensorFlow.js.
 */

/** What may run the networks: the processor, a graphics adapter, or whichever is quicker here. */
export const ACCELERATORS = ['auto', 'cpu', 'gpu'] as const;
export type Accelerator = (typeof ACCELERATORS)[number];

/** Side in pixels of the square picture each model takes (MoveNet SinglePose model card, Google 2021). */
export const MODEL_SIZE: Readonly<Record<PoseModelName, number>> = {
  'movenet-thunder': 256,
  'movenet-lightning': 192,
};

/** Side in pixels of the square picture the people detector takes. */
export const DETECTOR_SIZE = 256;

/** The model that measures the lifter at each quality. */
export const MODEL_OF_QUALITY: Readonly<Record<Quality, PoseModelName>> = {
  quick: 'movenet-lightning',
  standard: 'movenet-thunder',
  full: 'movenet-thunder',
};
