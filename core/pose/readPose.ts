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

/**
 * Reads one pose: the person whose middle stands out most, and for each keypoint the place that looks most like it,
 * the more so the nearer it is to where that middle expects it. These are the last steps of the published network
 * (MoveNet.SinglePose model card, Google 2021), in single precision as there.
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
    const shift = (best * KEYPOINT_COUNT + keypoint) * 2;
    points[keypoint * 3] = ((best % side) + offset[shift + 1]!) * scale;
    points[keypoint * 3 + 1] = (Math.floor(best / side) + offset[shift]!) * scale;
    points[keypoint * 3 + 2] = heatmap[best * KEYPOINT_COUNT + keypoint]!;
  }
  return points;
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
