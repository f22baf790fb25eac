import { KEYPOINT_COUNT, KEYPOINT_INDEX, type Side } from '../pose/keypoints.js';
import type { Body } from './body.js';

const JOINTS = ['shoulder', 'elbow', 'wrist', 'hip', 'knee', 'ankle'] as const;
/** The other side's label stands on a joint when it is no further than this from where the joint was last, in torsos. */
const SAME_PLACE_TORSOS = 0.15;
/** And the joint's own label has left it when it is further than this away: then it is not seen. */
const ELSEWHERE_TORSOS = 0.4;
/** A joint that was last seen longer ago may be anywhere, seconds. */
const LONGEST_MEMORY_SECONDS = 0.3;

/**
 * The body with one side's joints taken from either label: where a joint's own label was not seen, or jumped
 * away, and the other side's lies where the joint was a moment before, it is that joint. From the side the near limb
 * often carries both labels, and now and then only the far one's, while its own sits on somebody who stands behind.
 */
export function byEitherLabel(body: Body, side: Side): Body {
  const taken: Body = {
    ...body,
    x: Float32Array.from(body.x),
    y: Float32Array.from(body.y),
    score: Float32Array.from(body.score),
    seen: Uint8Array.from(body.seen),
    standardErrorPixels: Float32Array.from(body.standardErrorPixels),
  };
  const other: Side = side === 'left' ? 'right' : 'left';
  for (const joint of JOINTS) {
    takeOver(taken, KEYPOINT_INDEX[`${side}-${joint}`], KEYPOINT_INDEX[`${other}-${joint}`]);
  }
  return taken;
}

function takeOver(body: Body, own: number, other: number): void {
  const arrays = [body.x, body.y, body.score, body.standardErrorPixels];
  let last = -1;
  for (let frame = 0; frame < body.frames; frame++) {
    const [here, there] = [frame * KEYPOINT_COUNT + own, frame * KEYPOINT_COUNT + other];
    const recent = last >= 0 && body.seconds[frame]! - body.seconds[last]! <= LONGEST_MEMORY_SECONDS;
    if (recent) {
      const fromLast = (at: number) => {
        const before = last * KEYPOINT_COUNT + own;
        return Math.hypot(body.x[at]! - body.x[before]!, body.y[at]! - body.y[before]!) / body.torsoPixels;
      };
      const jumped = body.seen[here] === 1 && fromLast(here) > ELSEWHERE_TORSOS;
      if (body.seen[here] !== 1 || jumped) {
        const taken = body.seen[there] === 1 && fromLast(there) <= SAME_PLACE_TORSOS;
        if (taken) for (const values of arrays) values[here] = values[there]!;
        body.seen[here] = taken ? 1 : 0;
      }
    }
    if (body.seen[here] === 1) last = frame;
  }
}
