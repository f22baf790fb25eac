import type { Side } from '../pose/keypoints.js';
import type { Body } from './body.js';
import { estimateView, type View } from './view.js';

/** A stretch of film during which the lifter keeps the same side towards the camera. */
export interface ViewSpan {
  readonly fromSeconds: number;
  readonly toSeconds: number;
  readonly view: View;
}

const STEP_SECONDS = 0.5;
const HALF_WINDOW_SECONDS = 0.75;
/** A turn to the other side that does not last this long is a flicker of the estimate. */
const SHORTEST_SPAN_SECONDS = 3;
/** Facings less sure than this do not count. */
const LEAST_CONFIDENCE = 0.3;

/**
 * Splits a film where the lifter turns round: from showing the left side to showing the right one, or back.
 * Front and back views join the span they lie in. The spans cover the whole body from its first to its last frame.
 */
export function viewSpans(body: Body): readonly ViewSpan[] {
  if (body.frames === 0) return [];
  const first = body.seconds[0]!;
  const last = body.seconds[body.frames - 1]!;
  const changes = turnSeconds(body, first, last);
  const edges = [first, ...changes, last];
  return edges.slice(1).map((toSeconds, i) => {
    const fromSeconds = edges[i]!;
    return { fromSeconds, toSeconds, view: estimateView(body, fromSeconds, toSeconds) };
  });
}

interface Facing {
  readonly side: Side;
  readonly fromSeconds: number;
  readonly toSeconds: number;
}

/** When the lifter turned round: the middle between the last look at one side and the first at the other. */
function turnSeconds(body: Body, first: number, last: number): readonly number[] {
  const facings: Facing[] = [];
  for (let seconds = first; seconds <= last; seconds += STEP_SECONDS) {
    const view = estimateView(body, seconds - HALF_WINDOW_SECONDS, seconds + HALF_WINDOW_SECONDS);
    if (view.nearSide === null || view.confidence < LEAST_CONFIDENCE) continue;
    const previous = facings[facings.length - 1];
    if (previous?.side === view.nearSide) facings[facings.length - 1] = { ...previous, toSeconds: seconds };
    else facings.push({ side: view.nearSide, fromSeconds: seconds, toSeconds: seconds });
  }
  const lasting: Facing[] = [];
  for (const facing of facings) {
    if (facing.toSeconds - facing.fromSeconds < SHORTEST_SPAN_SECONDS) continue;
    const previous = lasting[lasting.length - 1];
    if (previous?.side === facing.side)
      lasting[lasting.length - 1] = { ...previous, toSeconds: facing.toSeconds };
    else lasting.push(facing);
  }
  return lasting.slice(1).map((facing, i) => (lasting[i]!.toSeconds + facing.fromSeconds) / 2);
}
