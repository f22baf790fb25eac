import type { MoveShape } from './moveShape.js';

export type FamilyName = 'ramped' | 'arched' | 'fading' | 'gathering' | 'stepped';

/** A family of move shapes as a fit sees it: free parameters, where they usually lie, and how common it is. */
export interface Family {
  readonly name: FamilyName;
  /** Logarithm of how often moves are of this family, up to a constant. */
  readonly logShare: number;
  /** Where a fit starts. */
  readonly starts: readonly (readonly number[])[];
  /** Everyday values of the parameters and how far shapes commonly lie from them. */
  readonly usual: readonly number[];
  readonly deviations: readonly number[];
  shape(parameters: readonly number[]): MoveShape;
}

/** Any number to 0 … 1. */
const squash = (x: number): number => 1 / (1 + Math.exp(-x));
const rampShare = (x: number): number => 0.02 + 0.96 * squash(x);

/** Paced moves ramp up and down over an eighth of their time, give or take a factor of two. */
const USUAL_RAMP = -2;
const RAMP_DEVIATION = 1;

const RAMPED: Family = {
  name: 'ramped',
  logShare: 0,
  starts: [
    [-2, -2, 0],
    [-0.5, -0.5, 0],
  ],
  usual: [USUAL_RAMP, USUAL_RAMP, 0],
  deviations: [RAMP_DEVIATION, RAMP_DEVIATION, 0.6],
  shape: ([startRamp = 0, endRamp = 0, lean = 0]) => ({
    family: 'ramped',
    startRamp: rampShare(startRamp),
    endRamp: rampShare(endRamp),
    lean: Math.tanh(lean),
  }),
};

/** Usual: about u²(1 − u)², the speed of a smooth reach (Flash and Hogan 1985). */
const ARCHED: Family = {
  name: 'arched',
  logShare: 0,
  starts: [[1, 1]],
  usual: [1, 1],
  deviations: [1.5, 1.5],
  shape: ([start = 0, end = 0]) => ({
    family: 'arched',
    start: 0.3 + 2.4 * squash(start),
    end: 0.3 + 2.4 * squash(end),
  }),
};

const fading = (name: 'fading' | 'gathering', logShare: number): Family => ({
  name,
  logShare,
  starts: [[USUAL_RAMP, 0]],
  usual: [USUAL_RAMP, 0],
  deviations: [RAMP_DEVIATION, 1.5],
  shape: ([ramp = 0, power = 0]) => ({
    family: 'fading',
    ramp: rampShare(ramp),
    power: 0.5 + 2 * squash(power),
    gathers: name === 'gathering',
  }),
});

/** The two speeds differ by less than a factor of five, or the slower part would be a hold. */
const STEPPED: Family = {
  name: 'stepped',
  logShare: -3,
  starts: [
    [USUAL_RAMP, USUAL_RAMP, 0.8, 1.1],
    [USUAL_RAMP, USUAL_RAMP, -0.8, -1.1],
  ],
  usual: [USUAL_RAMP, USUAL_RAMP, 0, 0],
  deviations: [RAMP_DEVIATION, RAMP_DEVIATION, 1.5, 1.2],
  shape: ([startRamp = 0, endRamp = 0, stepAt = 0, ratio = 0]) => ({
    family: 'stepped',
    startRamp: 0.02 + 0.5 * squash(startRamp),
    endRamp: 0.02 + 0.5 * squash(endRamp),
    stepAt: 0.15 + 0.7 * squash(stepAt),
    ratio: Math.exp(1.5 * Math.tanh(ratio)),
  }),
};

export const FAMILIES: readonly Family[] = [
  RAMPED,
  ARCHED,
  fading('fading', -0.5),
  fading('gathering', -1),
  STEPPED,
];
