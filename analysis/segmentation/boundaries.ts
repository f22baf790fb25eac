/**
 * Where a move begins and ends, by the definition of stillness: it lasts while its speed is above a tenth of its
 * own mean speed between these very two instants.
 */
export const STILLNESS_SHARE = 0.1;

/** A move's share that must still lie beyond a stall for the stall to belong to the move. */
const SHARE_BEYOND_STALL = 0.08;

/** A curve sampled on an even grid, rising from about its first to about its last value. */
export interface RisingCurve {
  readonly startSeconds: number;
  readonly stepSeconds: number;
  readonly values: Float64Array;
  readonly speeds: Float64Array;
}

export interface MoveBounds {
  readonly startSeconds: number;
  readonly endSeconds: number;
}

/**
 * Walks outwards from the middle of the move until its speed falls to a tenth of its mean, looks across stalls
 * behind which at least 8 % of the move remain, and repeats until the mean no longer changes.
 */
export function moveBounds(curve: RisingCurve): MoveBounds {
  const { values, speeds, startSeconds, stepSeconds } = curve;
  const last = values.length - 1;
  const total = values[last]! - values[0]!;
  let middle = 0;
  while (middle < last && values[middle]! < values[0]! + total / 2) middle++;
  let from = 0;
  let to = last;
  for (let round = 0; round < 30; round++) {
    const mean = (values[to]! - values[from]!) / Math.max(1, to - from) / stepSeconds;
    const still = STILLNESS_SHARE * mean;
    const nextFrom = walk(curve, middle, -1, still, total);
    const nextTo = walk(curve, middle, 1, still, total);
    if (nextFrom === from && nextTo === to) break;
    from = nextFrom;
    to = nextTo;
    if (to <= from) break;
  }
  return {
    startSeconds: startSeconds + crossing(speeds, from, -1) * stepSeconds,
    endSeconds: startSeconds + crossing(speeds, to, 1) * stepSeconds,
  };

  /** Between the last moving point and the still one beyond it, where exactly the threshold was crossed. */
  function crossing(ofSpeeds: Float64Array, index: number, direction: 1 | -1): number {
    const inside = index - direction;
    if (inside < 0 || inside > last || to <= from) return index;
    const mean = (values[to]! - values[from]!) / (to - from) / stepSeconds;
    const threshold = STILLNESS_SHARE * mean;
    const a = ofSpeeds[inside]!;
    const b = ofSpeeds[index]!;
    return a > threshold && b <= threshold ? inside + (direction * (a - threshold)) / (a - b) : index;
  }
}

function walk(curve: RisingCurve, from: number, direction: 1 | -1, still: number, total: number): number {
  const { speeds } = curve;
  const end = direction === 1 ? speeds.length - 1 : 0;
  let at = from;
  for (;;) {
    while (at !== end && speeds[at]! > still) at += direction;
    if (at === end) return at;
    if (!movesOn(curve, at, end, still, total)) return at;
    while (at !== end && !(speeds[at]! > still)) at += direction;
    if (at === end) return at;
  }
}

/**
 * Whether a stall lies inside the move: enough of the way is left behind it, and that way is covered, the stall
 * included, faster than stillness. Creeping within a hold is neither.
 */
function movesOn(curve: RisingCurve, at: number, end: number, still: number, total: number): boolean {
  const { values, stepSeconds } = curve;
  const left = Math.abs(values[end]! - values[at]!);
  if (left <= SHARE_BEYOND_STALL * Math.abs(total)) return false;
  const direction = Math.sign(end - at);
  let covered = at;
  while (covered !== end && Math.abs(values[covered]! - values[at]!) < 0.9 * left) covered += direction;
  return (0.9 * left) / (Math.abs(covered - at) * stepSeconds) > still;
}
