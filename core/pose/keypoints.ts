/**
 * The seventeen body points of the pose model, in the order of the COCO keypoint data set
 * (also the order of the MoveNet model card). Left and right are the person's own.
 */
export const KEYPOINTS = [
  'nose',
  'left-eye',
  'right-eye',
  'left-ear',
  'right-ear',
  'left-shoulder',
  'right-shoulder',
  'left-elbow',
  'right-elbow',
  'left-wrist',
  'right-wrist',
  'left-hip',
  'right-hip',
  'left-knee',
  'right-knee',
  'left-ankle',
  'right-ankle',
] as const;

export type Keypoint = (typeof KEYPOINTS)[number];
export type Side = 'left' | 'right';

export const KEYPOINT_COUNT = KEYPOINTS.length;

/** Position of a keypoint in the model's output, 0 to 16. */
export const KEYPOINT_INDEX = Object.fromEntries(KEYPOINTS.map((name, index) => [name, index])) as Record<
  Keypoint,
  number
>;

/** The same point on the other side of the body; points on the midline map to themselves. */
export function otherSide(keypoint: Keypoint): Keypoint {
  if (keypoint.startsWith('left-')) return keypoint.replace('left-', 'right-') as Keypoint;
  if (keypoint.startsWith('right-')) return keypoint.replace('right-', 'left-') as Keypoint;
  return keypoint;
}
