import { KEYPOINT_COUNT } from './keypoints.js';

/** What MoveNet says of every place of its grid, row by row: `side × side × channels`. */
export interface PoseMaps {
  /** Places along one side of the grid. */
  readonly side: number;
  /** For each keypoint how much a place looks like it, 0 to 1. */
  readonly heatmap: Float32Array;
  /** How much a place looks like the middle of a person, weighted towards the middle of the picture. */
  readonly center: Float32Array;
  /** From a person's middle to each keypoint: down and right, in places. */
  readonly regression: Float32Array;
  /** From a keypoint's place to the keypoint itself: down and right, in places. */
  readonly offset: Float32Array;
}

/** Distance, in places, at which a keypoint's look counts half as much as right where the person's middle expects it. */
const HALVING_PLACES = 1.7998046875;

/** Places up to so far from the likeliest one, down and across, have a say in where the keypoint lies … */
const VOTING_PLACES = 2;
/** … by their looks to this power. */
const VOTING_POWER = 1.5;

/**
 * Reads one pose: the person whose middle stands out most, and for each keypoint the place that looks most like it,
 * the more so the nearer it is to where that middle expects it. These are the last steps of the published network
 * (MoveNet.SinglePose model card, Google 2021), in single precision as there, but for one: the published network lets
 * the likeliest place alone say where the keypoint lies. Its neighbours each say so too and err differently, so that
 * all of them together err less (the expectation over a heatmap in place of its maximum: Sun and others 2018,
 * "Integral human pose regression", from memory).
 *
 * @returns 17 × 3 values: x and y as fractions of the picture, then the score, 0 to 1.
 */
export function readPose(maps: PoseMaps): Float32Array {
  const { side, heatmap, regression, offset } = maps;
  const middle = largest(maps.center);
  const row = Math.floor(middle / side);
  const column = middle % side;
  const scale = halfPrecision(1 / side);
  const points = new Float32Array(KEYPOINT_COUNT * 3);
  const looks = new Float32Array(side * side);
  for (let keypoint = 0; keypoint < KEYPOINT_COUNT; keypoint++) {
    const expected = (middle * KEYPOINT_COUNT + keypoint) * 2;
    const down = Math.fround(row + regression[expected]!);
    const right = Math.fround(column + regression[expected + 1]!);
    for (let place = 0; place < looks.length; place++) {
      const below = Math.floor(place / side) - down;
      const beside = (place % side) - right;
      const away = Math.sqrt(below * below + beside * beside);
      looks[place] = heatmap[place * KEYPOINT_COUNT + keypoint]! / (away + HALVING_PLACES);
    }
    const best = largest(looks);
    const voted = votedPlace(best, looks, offset, keypoint, side);
    points[keypoint * 3] = voted.right * scale;
    points[keypoint * 3 + 1] = voted.down * scale;
    points[keypoint * 3 + 2] = heatmap[best * KEYPOINT_COUNT + keypoint]!;
  }
  return points;
}

/** Where the places around the likeliest one say that a keypoint lies, in places. */
function votedPlace(
  best: number,
  looks: Float32Array,
  offset: Float32Array,
  keypoint: number,
  side: number,
): { readonly right: number; readonly down: number } {
  const bestRow = Math.floor(best / side);
  const bestColumn = best % side;
  let votes = 0;
  let right = 0;
  let down = 0;
  const first = (middle: number) => Math.max(0, middle - VOTING_PLACES);
  const last = (middle: number) => Math.min(side - 1, middle + VOTING_PLACES);
  for (let row = first(bestRow); row <= last(bestRow); row++) {
    for (let column = first(bestColumn); column <= last(bestColumn); column++) {
      const place = row * side + column;
      const shift = (place * KEYPOINT_COUNT + keypoint) * 2;
      // The likeliest place has one vote, also where nothing looks like the keypoint at all.
      const vote = place === best ? 1 : (looks[place]! / looks[best]!) ** VOTING_POWER || 0;
      votes += vote;
      right += vote * (column + offset[shift + 1]!);
      down += vote * (row + offset[shift]!);
    }
  }
  return { right: right / votes, down: down / votes };
}

/** Index of the first of the largest values. */
function largest(values: Float32Array): number {
  let best = 0;
  for (let index = 1; index < values.length; index++) if (values[index]! > values[best]!) best = index;
  return best;
}

/** Rounds a number between 2⁻¹⁴ and 2 to the eleven significant bits that the network's constants have. */
function halfPrecision(value: number): number {
  const unit = 2 ** (Math.floor(Math.log2(value)) - 10);
  return Math.round(value / unit) * unit;
}
