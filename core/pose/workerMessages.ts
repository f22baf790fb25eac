import type { FailureKind } from '../failure.js';
import type { PoseModelName } from './track.js';

/** One piece of inference; the answer depends on the job alone. */
export type InferenceJob =
  /** Find everyone in a small square picture. */
  | { readonly kind: 'look'; readonly picture: Uint8Array }
  /** Find the keypoints of the person in the middle of a cut-out. */
  | { readonly kind: 'measure'; readonly model: PoseModelName; readonly crop: Uint8Array };

/** What a worker sends back: for each person found 17 × (x, y, score), fractions of the picture it was given. */
export type InferenceResult = readonly Float32Array[];

export interface JobMessage {
  readonly id: number;
  readonly job: InferenceJob;
}

export type AnswerMessage =
  | {
      readonly id: number;
      readonly kind: 'result';
      readonly result: InferenceResult;
      readonly milliseconds: number;
    }
  | {
      readonly id: number;
      readonly kind: 'failure';
      readonly failureKind: FailureKind;
      readonly message: string;
      readonly remedy: string | null;
    }
  | { readonly id: number; readonly kind: 'error'; readonly message: string };
