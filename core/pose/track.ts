export type PoseModelName = 'movenet-thunder' | 'movenet-lightning';
export type Quality = 'quick' | 'standard' | 'full';

/**
 * Where one person's keypoints are in every analyzed frame of a film.
 *
 * Frame `f` has keypoint `k` (order of `KEYPOINTS`) at index `f * 17 + k` of `x`, `y` and `score`.
 * Only frames that were looked at are listed; times are irregular in general.
 */
export interface PoseTrack {
  readonly model: PoseModelName;
  readonly quality: Quality;
  /** Size in pixels of the upright picture that `x` and `y` refer to (x to the right, y down). */
  readonly width: number;
  readonly height: number;
  /** Frames the decoder delivered between `--from` and `--to`, looked at or not. */
  readonly framesInFilm: number;
  /** Container time of each analyzed frame, ascending, seconds. */
  readonly seconds: Float64Array;
  readonly x: Float32Array;
  readonly y: Float32Array;
  /** Confidence of the model, 0 to 1. A frame without the lifter has scores of 0. */
  readonly score: Float32Array;
  /**
   * How many people the coarse pass saw at once: null where it did not look, else the median over the film
   * and whether choosing the lifter among them was doubtful.
   */
  readonly people: { readonly medianCount: number; readonly lifterDoubtful: boolean } | null;
}
