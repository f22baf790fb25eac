import type { Body } from '../../core/motion/body.js';
import { sliceBody } from '../../core/motion/sliceBody.js';
import { viewSpans } from '../../core/motion/viewSpans.js';
import { findCycle } from './cycle.js';
import { movementFeatures } from './features.js';
import { type Candidate, likelihoods } from './likelihood.js';

/** What the film shows, as far as movement tells. */
export interface Recognition {
  /** The likeliest first; empty where nothing goes to and fro. */
  readonly candidates: readonly Candidate[];
  readonly certain: boolean;
}

/** The features of the movement in each stretch of constant view that shows one, the longest stretch first. */
export function seenMovements(body: Body): readonly (readonly number[])[] {
  return viewSpans(body)
    .toSorted((a, b) => b.toSeconds - b.fromSeconds - (a.toSeconds - a.fromSeconds))
    .flatMap((span) => {
      const part = sliceBody(body, span.fromSeconds, span.toSeconds);
      const cycle = findCycle(part, span.view);
      return cycle === null ? [] : [movementFeatures(part, span.view, cycle)];
    });
}

/** The exercises of the catalogue that look most like the movement. */
export function recognize(body: Body): Recognition {
  const [movement] = body.frames < 2 ? [] : seenMovements(body);
  if (movement === undefined) return { candidates: [], certain: false };
  return likelihoods(movement);
}
