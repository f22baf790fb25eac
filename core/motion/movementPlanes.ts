import { angleBetweenDegrees, turnDegrees, type Vector } from './angles.js';
import type { BendDirection } from './bendDirection.js';
import type { Body } from './body.js';
import {
  inSpace,
  type Lens,
  lengthSteadiness,
  likelyYaws,
  meanYaws,
  type SeenLine,
  yawPosterior,
} from './depth.js';
import type { JointAngle } from './jointAngle.js';
import { type BodyLine, type JointGeometry, keypointsOf } from './jointGeometry.js';
import { linePrior } from './linePrior.js';
import { direction, middle, type Points, seenFrames } from './seenFrames.js';
import { bodySizePixels, FRONTAL_DEGREES, type View } from './view.js';

/** Yaw of the vertical planes in which a joint's two lines move, degrees, with the lens that sees them. */
export interface Planes {
  readonly first: number;
  readonly second: number;
  readonly lens: Lens;
  readonly centre: Vector;
}

/** The planes on the whole, and all that the film leaves possible with their weights. */
export interface PossiblePlanes {
  readonly mean: Planes;
  readonly likely: readonly { readonly planes: Planes; readonly weight: number }[];
  readonly corrected: boolean;
  /** Own length of the less steady line when it looks short over when it looks long, 0 to 1. */
  readonly steadiness: number;
}

/** Fits the planes of movement of a joint to all frames of a body at once. */
export function movementPlanes(
  body: Body,
  geometry: JointGeometry,
  joint: JointAngle,
  view: View,
): PossiblePlanes {
  const lens = lensOf(body, joint, view);
  const centre = { x: body.width / 2, y: body.height / 2 };
  if (geometry.sign === 'complement' || body.torsoPixels === 0) {
    return { mean: { first: 0, second: 0, lens, centre }, likely: [], corrected: false, steadiness: 1 };
  }
  const keypoints = keypointsOf(geometry.first, geometry.second);
  const first: SeenLine[] = [];
  const second: SeenLine[] = [];
  for (const { points } of seenFrames(body, keypoints)) {
    first.push(seenLine(geometry.first, points, centre));
    second.push(seenLine(geometry.second, points, centre));
  }
  const size = bodySizePixels(body);
  const posterior = yawPosterior(
    { frames: first, prior: linePrior(geometry.first, joint, view, size) },
    { frames: second, prior: linePrior(geometry.second, joint, view, size) },
    lens,
    size,
  );
  const likely = likelyYaws(posterior).map(({ first, second, weight }) => ({
    planes: { first, second, lens, centre },
    weight,
  }));
  const yaws = meanYaws(posterior);
  const steadiness = Math.min(
    lengthSteadiness(first, yaws.first, lens),
    lengthSteadiness(second, yaws.second, lens),
  );
  return { mean: { ...yaws, lens, centre }, likely, corrected: true, steadiness };
}

/** Usual focal length of a phone's main camera over the long side of its picture (common practice, no source). */
const FOCAL_SHARE = 0.95;

function lensOf(body: Body, joint: JointAngle, view: View): Lens {
  const focalPixels = FOCAL_SHARE * Math.max(body.width, body.height, 1);
  const sagittal =
    joint !== 'shoulder-abduction' && (joint !== 'elbow-flexion' || view.degreesOffSide <= FRONTAL_DEGREES);
  const known = sagittal && view.fromFront !== null && view.forward !== 0;
  return {
    focalPixels,
    rightIsNearer: known ? (view.fromFront ? view.forward : (-view.forward as -1 | 1)) : 0,
  };
}

function seenLine(line: BodyLine, points: Points, centre: Vector): SeenLine {
  const { x, y } = direction(line, points);
  const end = middle(line.to, points);
  return { x, y, endX: end.x - centre.x, endY: end.y - centre.y };
}

/** The joint angle of one frame with its lines lifted into their planes, degrees. */
export function jointDegrees(
  geometry: JointGeometry,
  planes: Planes,
  points: Points,
  positive: BendDirection,
): number {
  const first = inSpace(seenLine(geometry.first, points, planes.centre), planes.first, planes.lens);
  const second = inSpace(seenLine(geometry.second, points, planes.centre), planes.second, planes.lens);
  const angle = angleBetweenDegrees(first, second);
  if (geometry.sign === 'complement') return 90 - angle;
  if (positive === 0) return angle;
  const signed = Math.sign(turnDegrees(first, second)) * positive * angle;
  // Arms go further up than they go back: the cut lies behind the trunk, not overhead.
  return signed < -100 ? signed + 360 : signed;
}
