import type { Body } from '../../core/motion/body.js';
import { median } from '../../core/motion/robust.js';
import type { View } from '../../core/motion/view.js';
import { KEYPOINT_COUNT, KEYPOINT_INDEX, type Side } from '../../core/pose/keypoints.js';

/** The feet stand at least this share of the trunk's length apart before one is said to be in front. */
const LEAST_STANCE = 0.15;

/**
 * The leg that stands in front between two instants, seen from a side: the one whose ankle lies farther to where the
 * lifter faces.
 *
 * @returns null where the view does not tell where the lifter faces, or the feet stand beside one another.
 */
export function frontLeg(body: Body, view: View, fromSeconds: number, toSeconds: number): Side | null {
  if (view.facing !== 'left' && view.facing !== 'right') return null;
  const leads: number[] = [];
  const [left, right] = [KEYPOINT_INDEX['left-ankle'], KEYPOINT_INDEX['right-ankle']];
  for (let frame = 0; frame < body.frames; frame++) {
    if (body.seconds[frame]! < fromSeconds || body.seconds[frame]! > toSeconds) continue;
    const at = frame * KEYPOINT_COUNT;
    if (body.seen[at + left] === 1 && body.seen[at + right] === 1) {
      leads.push(body.x[at + left]! - body.x[at + right]!);
    }
  }
  // Whose left side the camera sees faces the left of the picture.
  const lead = (median(leads) ?? 0) * (view.facing === 'left' ? -1 : 1);
  if (Math.abs(lead) < LEAST_STANCE * body.torsoPixels) return null;
  return lead > 0 ? 'left' : 'right';
}
