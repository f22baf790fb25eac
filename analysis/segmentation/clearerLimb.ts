import type { JointSamples } from '../../core/motion/jointSamples.js';
import { SIDE_VIEW_DEGREES, type View } from '../../core/motion/view.js';
import type { Side } from '../../core/pose/keypoints.js';

/** The far limb must keep its lengths this much better than the near one to stand for both. */
const CLEARLY_STEADIER = 0.1;
/** And be seen in as many frames, nearly. */
const LEAST_SHARE_OF_SEEN = 0.9;

/**
 * The limb that stands for both where the camera sees one side more than the other: the near one, unless the film is
 * oblique, the far limb shows as well, and the near one points at the camera (its own length comes and goes).
 */
export function clearerLimb(view: View, samplesOf: (side: Side) => JointSamples): Side {
  const near = view.nearSide ?? 'left';
  if (view.degreesOffSide <= SIDE_VIEW_DEGREES) return near;
  const far: Side = near === 'left' ? 'right' : 'left';
  const [nearSamples, farSamples] = [samplesOf(near), samplesOf(far)];
  const shows =
    farSamples.degreesTrustworthy && farSamples.seenShare >= LEAST_SHARE_OF_SEEN * nearSamples.seenShare;
  return shows && farSamples.steadiness > nearSamples.steadiness + CLEARLY_STEADIER ? far : near;
}
