import type { Side } from '../pose/keypoints.js';
import type { AngleCurve } from './anglesInStep.js';
import type { Body } from './body.js';
import { HALF_WIDTH_ERRORS } from './interval.js';
import { endsOfKeypoints, rangeWithin, type Stretch } from './postureEnds.js';
import { planeOutOfPicture, turnedLimbs } from './turningPlane.js';
import { turnedTo, type View } from './view.js';

/**
 * At 45° the view comes out as 56 ± 9° (41 films): keypoints of a trunk seen obliquely lie in depth, too. Mended in the estimate
 * itself, which also decides which limbs are followed, it made times from the side worse.
 */
const VIEW_SHARE = 0.8;
/** How well the limbs' plane is that of the lifter, from exercise to exercise (one deviation): feet and knees turn out. */
const PLANE_ERROR_DEGREES = 5;

/** How far the sagittal plane is turned out of the picture as the breadths of shoulders and hips say, degrees. */
export function planeByBreadths(view: View): number {
  return VIEW_SHARE * view.degreesOffSide;
}

/**
 * The view once more, told by limbs that turn in the lifter's sagittal plane between both ends of a range.
 *
 * @param angle tells which frames show the ends
 * @param sides whose limbs turn
 * @returns the view as it was where the ends cannot be told
 */
export function viewByLimbs(
  body: Body,
  angle: AngleCurve,
  { view, sides, ...stretch }: Stretch & { readonly view: View; readonly sides: readonly Side[] },
): View {
  const range = rangeWithin(angle, stretch);
  if (range === null || body.torsoPixels === 0) return view;
  const limbs = turnedLimbs(endsOfKeypoints(body, angle, range, stretch), sides, body.torsoPixels);
  const { degrees, standardErrorDegrees } = planeOutOfPicture(limbs, planeByBreadths(view));
  const uncertaintyDegrees = HALF_WIDTH_ERRORS * Math.hypot(standardErrorDegrees, PLANE_ERROR_DEGREES);
  return turnedTo(view, degrees, Math.min(view.uncertaintyDegrees, uncertaintyDegrees));
}
