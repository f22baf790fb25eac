import { EigenvalueDecomposition, Matrix, solve } from 'ml-matrix';
import { KEYPOINT_COUNT, KEYPOINT_INDEX } from '../pose/keypoints.js';
import type { Body } from './body.js';
import { median } from './robust.js';
import { indicesWithin, type Samples } from './samples.js';

/** A body that lifts moves along very few ways at once; what the pose model misplaces lies in all the others. */
const COMPONENTS = 4;
/** Of an angle and what the pose of the body says of it, each has this say: neither errs much less than the other. */
const SAY_OF_THE_POSE = 0.5;
/** A pose that explains less than this share of the angle's variance goes another way than the joint, and has no say. */
const LEAST_EXPLAINED = 0.97;
/** Four samples for each term of the regression. */
const LEAST_SAMPLES = 60;
/** The face looks about as it likes; the body from the shoulders down does what the exercise asks for. */
const FIRST_KEYPOINT = KEYPOINT_INDEX['left-shoulder'];
/** A keypoint has a say where it was seen in most of the frames. */
const LEAST_SEEN_SHARE = 0.8;

/**
 * An angle over a stretch of film, steadied by the rest of the body: the mean of each sample and of what the whole pose at
 * that instant says the angle is. The pose is described by its principal components, and how the angle follows from
 * them is learned from the stretch itself (principal component regression, quadratic; Jolliffe 2002, Principal
 * Component Analysis, chapter 8). The keypoints of the joint itself are only some of the twelve, and each keypoint errs in its own
 * way, so that their errors largely cancel.
 *
 * @param samples an angle of that body
 * @param fromSeconds start of the stretch; samples outside it stay as they are
 * @returns the samples as they were where the pose cannot tell the angle
 */
export function steadiedByPose<T extends Samples>(
  samples: T,
  body: Body,
  fromSeconds: number,
  toSeconds: number,
): T {
  const chosen = indicesWithin(samples, fromSeconds, toSeconds);
  if (chosen.length < LEAST_SAMPLES) return samples;
  const coordinates = coordinatesAt(body, new Set(chosen.map((index) => samples.seconds[index]!)));
  if (coordinates === null) return samples;
  const values = chosen.map((index) => samples.values[index]!);
  const weights = chosen.map((index) => 1 / Math.max(1e-6, samples.standardErrors[index]!));
  const expected = regression(principalComponents(coordinates), values, weights);
  if (explainedShare(values, expected) < LEAST_EXPLAINED) return samples;
  const steadied = samples.values.slice();
  chosen.forEach((index, row) => {
    steadied[index] = (1 - SAY_OF_THE_POSE) * values[row]! + SAY_OF_THE_POSE * expected[row]!;
  });
  return { ...samples, values: steadied };
}

/** Every well-seen keypoint's place in the frames at those times, in its own standard errors; a row a frame, null without keypoints. */
function coordinatesAt(body: Body, times: ReadonlySet<number>): Matrix | null {
  const frames = Array.from({ length: body.frames }, (_, frame) => frame).filter((frame) =>
    times.has(body.seconds[frame]!),
  );
  const columns: number[][] = [];
  for (let keypoint = FIRST_KEYPOINT; keypoint < KEYPOINT_COUNT; keypoint++) {
    const indices = frames.map((frame) => frame * KEYPOINT_COUNT + keypoint);
    const seen = indices.filter((index) => body.seen[index] === 1);
    if (seen.length < LEAST_SEEN_SHARE * frames.length) continue;
    const error = median(seen.map((index) => body.standardErrorPixels[index]!))!;
    for (const places of [body.x, body.y]) {
      columns.push(centred(lastSeen(indices, places, body.seen).map((place) => place / error)));
    }
  }
  return columns.length < COMPONENTS ? null : new Matrix(columns).transpose();
}

/** The places, with the last one seen wherever the keypoint was not; before the first, the first. */
function lastSeen(indices: readonly number[], places: Float32Array, seen: Uint8Array): number[] {
  let last = places[indices.find((index) => seen[index] === 1)!]!;
  return indices.map((index) => {
    if (seen[index] === 1) last = places[index]!;
    return last;
  });
}

function centred(values: readonly number[]): number[] {
  const mean = values.reduce((sum, value) => sum + value, 0) / values.length;
  return values.map((value) => value - mean);
}

/** The rows' scores on the components along which they differ most; a row a frame, the largest component about 1 in size. */
function principalComponents(coordinates: Matrix): readonly (readonly number[])[] {
  // By the few coordinates' products among each other: decomposing all the frames takes ten times as long.
  const { realEigenvalues, eigenvectorMatrix } = new EigenvalueDecomposition(
    coordinates.transpose().mmul(coordinates),
    { assumeSymmetric: true },
  );
  const last = realEigenvalues.length - 1;
  const largest = Math.sqrt(Math.max(1e-12, realEigenvalues[last]!) / coordinates.rows);
  const directions = eigenvectorMatrix.subMatrixColumn(
    Array.from({ length: COMPONENTS }, (_, component) => last - component),
  );
  return coordinates.mmul(directions).div(largest).to2DArray();
}

/** What the components say of the values, by weighted least squares with their products as terms. */
function regression(
  components: readonly (readonly number[])[],
  values: readonly number[],
  weights: readonly number[],
): readonly number[] {
  const terms = components.map((row) => [
    1,
    ...row,
    ...row.flatMap((one, k) => row.slice(k).map((other) => one * other)),
  ]);
  const weighted = new Matrix(terms.map((row, i) => row.map((term) => term * weights[i]!)));
  const target = Matrix.columnVector(values.map((value, i) => value * weights[i]!));
  const factors = solve(weighted, target).to1DArray();
  return terms.map((row) => row.reduce((sum, term, k) => sum + term * factors[k]!, 0));
}

function explainedShare(values: readonly number[], expected: readonly number[]): number {
  const mean = values.reduce((sum, value) => sum + value, 0) / values.length;
  let left = 0;
  let whole = 0;
  values.forEach((value, i) => {
    left += (value - expected[i]!) ** 2;
    whole += (value - mean) ** 2;
  });
  return whole === 0 ? 0 : 1 - left / whole;
}
