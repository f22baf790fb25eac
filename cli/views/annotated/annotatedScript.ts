import type { SetReport } from '../../../analysis/report/setReport.js';
import type { PoseTrack } from '../../../core/pose/track.js';
import { shownFigure } from '../figure/shownFigure.js';
import type { PhaseWords } from '../words/phaseWords.js';
import { assScript } from './assScript.js';
import { panelEvents } from './panelEvents.js';
import { skeletonEvents } from './skeletonPaths.js';

/** Longest side of an annotated film in pixels: plays on any phone and goes through any messenger. */
const LONGEST_SIDE = 1280;
/** Short sides under this leave no room for words. */
const LEAST_SHORT_SIDE = 360;

export interface Size {
  readonly width: number;
  readonly height: number;
}

/** Size of the annotated film, even numbers: never over 1280 pixels, tiny films enlarged so that words fit. */
export function sharedSize({ width, height }: Size): Size {
  const shrink = Math.min(1, LONGEST_SIDE / Math.max(width, height));
  const enlarge = Math.min(
    Math.max(1, LEAST_SHORT_SIDE / Math.min(width, height)),
    LONGEST_SIDE / Math.max(width, height),
  );
  const scale = shrink < 1 ? shrink : enlarge;
  const even = (pixels: number) => Math.max(2, 2 * Math.round((pixels * scale) / 2));
  return { width: even(width), height: even(height) };
}

/** Everything that is drawn over a film, as one subtitle script in film time. */
export function annotatedScript(
  report: SetReport,
  track: PoseTrack,
  size: Size,
  words: PhaseWords,
  slowMotionFactor: number,
): string {
  const placement = {
    scale: size.width / track.width,
    left: 0,
    top: 0,
    thickness: Math.max(3, Math.min(size.width, size.height) / 110),
  };
  return assScript(size, [
    ...skeletonEvents(shownFigure(track, report), placement),
    ...panelEvents(report, size, words, slowMotionFactor),
  ]);
}
