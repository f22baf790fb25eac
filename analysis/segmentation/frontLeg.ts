import type { Body } from '../../core/motion/body.js';
import { median } from '../../core/motion/robust.js';
import type { View } from '../../core/motion/view.js';
import { KEYPOINT_COUNT, KEYPOINT_INDEX, type Side } from '../../core/pose/keypoints.js';

/** The feet stand at least this share of the trunk's length apart before one is said to be in front. */
const LEAST_STANCE = 0.15;

/**
 * The leg that stands in front between two instants: the one whose ankle lies farther to where the lifter faces. From
 * an oblique view the feet lie beside one another in the picture as the hips do, which is taken off first.
 *
 * @returns null where the view does not tell where the lifter faces, or the feet stand beside one another.
 */
export function frontLeg(body: Body, view: View, fromSeconds: number, toSeconds: number): Side | null {
  const leads: number[] = [];
  for (let frame = 0; frame < body.frames; frame++) {
    if (body.seconds[frame]! < fromSeconds || body.seconds[frame]! > toSeconds) continue;
    const feet = leftFromRight(body, frame, 'ankle');
    if (feet !== null) leads.push(feet - (leftFromRight(body, frame, 'hip') ?? 0));
  }
  const lead = (median(leads) ?? 0) * view.forward;
  if (Math.abs(lead) <= LEAST_STANCE * body.torsoPixels) return null;
  return lead > 0 ? 'left' : 'right';
}

/** How far right of the right one the left one lies in the picture, pixels; null where one is not seen. */
function leftFromRight(body: Body, frame: number, joint: 'ankle' | 'hip'): number | null {
  const left = frame * KEYPOINT_COUNT + KEYPOINT_INDEX[`left-${joint}`];
  const right = frame * KEYPOINT_COUNT + KEYPOINT_INDEX[`right-${joint}`];
  return body.seen[left] === 1 && body.seen[right] === 1 ? body.x[left]! - body.x[right]! : null;
}
