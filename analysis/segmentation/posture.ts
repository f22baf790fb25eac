import { quantileOf } from '../../core/motion/robust.js';
import type { Samples } from '../../core/motion/samples.js';

/**
 * One thing about the body that stays the same from rep to rep at the same point of the rep: where the trunk
 * is, how it leans, how the joints that do not drive the exercise are held.
 */
export interface PostureFeature {
  readonly samples: Samples;
  /** A difference this large between like instants of two reps means another activity. */
  readonly tolerance: number;
}

export type Posture = readonly PostureFeature[];

/**
 * Something that must move along with the driving angle in every rep: from the start position to the far end it has
 * to change by at least `leastChange` (with its sign) for a rep of usual size, and in proportion for smaller ones.
 */
export interface Companion {
  readonly samples: Samples;
  readonly leastChange: number;
  /** True where smaller reps are not told from other movements: no proportion then. */
  readonly wholeReps?: boolean;
}

/** How something about the body is in every rep, at one end of it or at both; outside it the movement is another one. */
export interface Held {
  readonly samples: Samples;
  /** `straight`: the end at which the driving angle is the smaller. */
  readonly at: 'both-ends' | 'straight';
  readonly least: number;
  readonly most: number;
}

/** Whether what is held lies where it should, in the middle of the given instants' values; true where it was not seen. */
export function isHeld({ samples, least, most }: Held, instants: readonly number[]): boolean {
  const seen = instants.map((instant) => medianAround(samples, instant)).filter((value) => value !== null);
  const usual = median(seen);
  return usual === null || (usual >= least && usual <= most);
}

/** Where the lifter is across the picture and how far apart the feet are there, torso lengths. */
export interface Footing {
  readonly feetApart: Samples;
  readonly place: Samples;
}

/** Feet that pass each other while the body goes somewhere are walking; a stance that is shifted is not. */
const STEP_TORSOS = 0.25;
const WAY_TORSOS = 0.33;

export function walks({ feetApart, place }: Footing, fromSeconds: number, toSeconds: number): boolean {
  return (
    spread(feetApart, fromSeconds, toSeconds) > STEP_TORSOS &&
    spread(place, fromSeconds, toSeconds) > WAY_TORSOS
  );
}

/** From the 5th to the 95th percentile; 0 where nothing was seen. */
function spread({ seconds, values }: Samples, fromSeconds: number, toSeconds: number): number {
  const within = Array.from(values).filter((_, i) => seconds[i]! >= fromSeconds && seconds[i]! <= toSeconds);
  return (quantileOf(within, 0.95) ?? 0) - (quantileOf(within, 0.05) ?? 0);
}

/** Whether the companion changed enough between two instants, for a rep of `size` times the usual excursion. */
export function movedAlong(companion: Companion, near: number, far: number, size: number): boolean {
  const before = medianAround(companion.samples, near);
  const after = medianAround(companion.samples, far);
  if (before === null || after === null) return true;
  const change = (after - before) * Math.sign(companion.leastChange);
  return change >= Math.abs(companion.leastChange) * (companion.wholeReps === true ? 1 : Math.min(1, size));
}

/** The features' values at an instant; null where a feature was not seen around then. */
export type Pose = readonly (number | null)[];

const HALF_WINDOW_SECONDS = 0.2;

/** Medians of the features over a fifth of a second to both sides. */
export function poseAt(posture: Posture, seconds: number): Pose {
  return posture.map(({ samples }) => medianAround(samples, seconds));
}

/** The largest difference between two poses in units of the features' tolerances; 0 where nothing can be compared. */
export function poseDistance(posture: Posture, a: Pose, b: Pose): number {
  let largest = 0;
  for (let i = 0; i < posture.length; i++) {
    const first = a[i];
    const second = b[i];
    if (first === null || second === null || first === undefined || second === undefined) continue;
    largest = Math.max(largest, Math.abs(first - second) / posture[i]!.tolerance);
  }
  return largest;
}

/** The pose whose every feature is the median of that feature over several poses. */
export function medianPose(poses: readonly Pose[]): Pose {
  const features = poses[0]?.length ?? 0;
  return Array.from({ length: features }, (_, i) =>
    median(poses.map((pose) => pose[i]).filter((value): value is number => typeof value === 'number')),
  );
}

function medianAround(samples: Samples, seconds: number): number | null {
  const { seconds: times, values } = samples;
  let low = 0;
  let high = times.length;
  while (low < high) {
    const middle = (low + high) >> 1;
    if (times[middle]! < seconds - HALF_WINDOW_SECONDS) low = middle + 1;
    else high = middle;
  }
  const near: number[] = [];
  for (let i = low; i < times.length && times[i]! <= seconds + HALF_WINDOW_SECONDS; i++)
    near.push(values[i]!);
  return median(near);
}

function median(values: readonly number[]): number | null {
  if (values.length === 0) return null;
  const sorted = [...values].sort((a, b) => a - b);
  return sorted[sorted.length >> 1]!;
}
