import { toDegrees, toRadians } from './angles.js';
import { median, quantileOf } from './robust.js';

/**
 * A body line in one frame: from its near end to its far one, and where its far end lies against the middle of the
 * picture; pixels, x right, y down.
 */
export interface SeenLine {
  readonly x: number;
  readonly y: number;
  readonly endX: number;
  readonly endY: number;
}

/** What is known of a body line before its lengths in the picture are looked at. */
export interface LinePrior {
  /** Own length, pixels. */
  readonly lengthPixels: number;
  /** Standard deviation of that length from person to person and from the scale's error, pixels. */
  readonly lengthError: number;
  /** Weights, on `YAW_DEGREES`, of the angle between the picture plane and the vertical plane it moves in. */
  readonly yawWeights: readonly number[];
}

export interface Lens {
  /** Focal length, pixels. */
  readonly focalPixels: number;
  /** 1 where a line running to the right of the picture comes towards the camera, -1 where it goes away, 0 unknown. */
  readonly rightIsNearer: -1 | 0 | 1;
}

/** The yaw angles that are considered. */
export const YAW_DEGREES: readonly number[] = Array.from({ length: 26 }, (_, step) => 3 * step);

/** How likely each pair of yaw angles is for two joined lines; sums to one. Pair (i, j) is at `i * YAW_DEGREES.length + j`. */
export type YawPosterior = Float64Array;

/** Two joined lines need not move in one plane: standard deviation of the difference of their yaws, degrees. */
const YAW_DIFFERENCE = 12;
const BIN_DEGREES = 10;
const FEWEST_FRAMES = 3;
/**
 * Error of a line's length that lasts as long as the pose does, since keypoints sit off the joint centres by an amount
 * that depends on the pose; in torso lengths. Averaging frames does not lessen it.
 */
const POSED_ERROR_TORSOS = 0.04;

/**
 * How far the planes of movement of two joined body lines are turned out of the picture, from how the lines' lengths
 * change with their direction.
 *
 * A line of length L moving in a vertical plane at yaw ψ looks L / √(cos²φ / cos²ψ + sin²φ) long where it stands at
 * steepness φ in the picture. One yaw for a whole bout is held against many frames at once, so noise does not make a
 * straight limb look bent, as foreshortening frame by frame does. Lengths enter linearly with a normal prior and are
 * integrated out; yaws are weighed on a grid.
 */
export function yawPosterior(
  first: { readonly frames: readonly SeenLine[]; readonly prior: LinePrior },
  second: { readonly frames: readonly SeenLine[]; readonly prior: LinePrior },
  lens: Lens,
  torsoPixels: number,
): YawPosterior {
  const count = YAW_DEGREES.length;
  const evidence = (line: typeof first) =>
    YAW_DEGREES.map((yaw, index) => {
      const appearances = appearancesOf(line.frames, yaw, lens, torsoPixels);
      return Math.log(line.prior.yawWeights[index]! + 1e-12) + lengthEvidence(appearances, yaw, line.prior);
    });
  const a = evidence(first);
  const b = evidence(second);
  const logarithms = new Float64Array(count * count);
  for (let i = 0; i < count; i += 1) {
    for (let j = 0; j < count; j += 1) {
      const apart = (YAW_DEGREES[i]! - YAW_DEGREES[j]!) / YAW_DIFFERENCE;
      logarithms[i * count + j] = a[i]! + b[j]! - (apart * apart) / 2;
    }
  }
  const best = Math.max(...logarithms);
  const weights = logarithms.map((value) => Math.exp(value - best));
  const sum = weights.reduce((total, weight) => total + weight, 0);
  return weights.map((weight) => weight / sum);
}

/** Mean yaw of each of the two lines, degrees. */
export function meanYaws(posterior: YawPosterior): { readonly first: number; readonly second: number } {
  const count = YAW_DEGREES.length;
  let [first, second] = [0, 0];
  posterior.forEach((weight, at) => {
    first += weight * YAW_DEGREES[Math.floor(at / count)]!;
    second += weight * YAW_DEGREES[at % count]!;
  });
  return { first, second };
}

/** The pairs of yaws that carry nearly all the weight, scaled to sum to one. */
export function likelyYaws(
  posterior: YawPosterior,
): readonly { readonly first: number; readonly second: number; readonly weight: number }[] {
  const count = YAW_DEGREES.length;
  const pairs = Array.from(posterior, (weight, at) => ({
    first: YAW_DEGREES[Math.floor(at / count)]!,
    second: YAW_DEGREES[at % count]!,
    weight,
  })).filter(({ weight }) => weight > 1e-3);
  const sum = pairs.reduce((total, { weight }) => total + weight, 0);
  return pairs.map((pair) => ({ ...pair, weight: pair.weight / sum }));
}

/**
 * The line in space: across and down the picture, and its depth (sign as if a line to the right came nearer).
 *
 * A far end that is nearer to the camera than the near end is also shifted outwards from the middle of the picture
 * (central projection); that shift is taken off again.
 */
export function inSpace(line: SeenLine, yawDegrees: number, lens: Lens): { x: number; y: number; z: number } {
  const slope = Math.tan(toRadians(yawDegrees));
  const nearer = (lens.rightIsNearer * slope) / lens.focalPixels;
  const x = line.x / Math.max(0.5, 1 + nearer * line.endX);
  return { x, y: line.y - nearer * x * line.endY, z: x * slope };
}

/** Length in the picture over own length of a line at a steepness in the picture, in a vertical plane at a yaw. */
export function apparentShare(steepnessDegrees: number, yawDegrees: number): number {
  const level = Math.cos(toRadians(steepnessDegrees)) / Math.cos(toRadians(yawDegrees));
  return 1 / Math.hypot(level, Math.sin(toRadians(steepnessDegrees)));
}

/**
 * Length in space of a line when it comes out short (one frame in ten is shorter) over when it comes out long; near 1
 * where the line really moves in a vertical plane at that yaw.
 */
export function lengthSteadiness(frames: readonly SeenLine[], yawDegrees: number, lens: Lens): number {
  const lengths = frames.map((frame) => {
    const { x, y, z } = inSpace(frame, yawDegrees, lens);
    return Math.hypot(x, y, z);
  });
  const long = quantileOf(lengths, 0.9);
  return long === null || long === 0 ? 0 : quantileOf(lengths, 0.1)! / long;
}

interface Appearance {
  /** Steepness in the picture, 0° level to 90° upright. */
  readonly steepnessDegrees: number;
  readonly lengthPixels: number;
  readonly errorPixels: number;
}

/** Median length of a line per 10° of steepness: neighbouring frames share their errors and count as one. */
function appearancesOf(
  frames: readonly SeenLine[],
  yaw: number,
  lens: Lens,
  torsoPixels: number,
): readonly Appearance[] {
  const bins = Array.from({ length: 90 / BIN_DEGREES }, () => ({
    steepness: [] as number[],
    lengths: [] as number[],
  }));
  for (const frame of frames) {
    const { x, y } = inSpace(frame, yaw, lens);
    const steepness = toDegrees(Math.atan2(Math.abs(y), Math.abs(x)));
    const bin = bins[Math.min(bins.length - 1, Math.floor(steepness / BIN_DEGREES))]!;
    bin.steepness.push(steepness);
    bin.lengths.push(Math.hypot(x, y));
  }
  return bins
    .filter(({ lengths }) => lengths.length >= FEWEST_FRAMES)
    .map(({ steepness, lengths }) => ({
      steepnessDegrees: median(steepness)!,
      lengthPixels: median(lengths)!,
      errorPixels: POSED_ERROR_TORSOS * torsoPixels * Math.sqrt(1 + 4 / lengths.length),
    }));
}

/** Logarithm of the likelihood of the appearances at one yaw, the line's length integrated out (constants left out). */
function lengthEvidence(appearances: readonly Appearance[], yaw: number, prior: LinePrior): number {
  let precision = 1 / prior.lengthError ** 2;
  let weighted = prior.lengthPixels * precision;
  let squares = prior.lengthPixels * weighted;
  for (const { steepnessDegrees, lengthPixels, errorPixels } of appearances) {
    const share = apparentShare(steepnessDegrees, yaw);
    const weight = 1 / errorPixels ** 2;
    precision += share * share * weight;
    weighted += share * lengthPixels * weight;
    squares += lengthPixels * lengthPixels * weight;
  }
  return -(squares - (weighted * weighted) / precision) / 2 - Math.log(precision) / 2;
}
