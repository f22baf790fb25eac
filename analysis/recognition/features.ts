import type { Body } from '../../core/motion/body.js';
import { jointSamples, trunkLean } from '../../core/motion/jointSamples.js';
import { positionSamples } from '../../core/motion/positions.js';
import { median } from '../../core/motion/robust.js';
import type { Samples } from '../../core/motion/samples.js';
import type { View } from '../../core/motion/view.js';
import type { Side } from '../../core/pose/keypoints.js';
import type { Cycle } from './cycle.js';

/**
 * What a movement looks like, in an order that never changes (`profiles.ts` relies on it): each quantity where the
 * cycling joint is straightest, then where it is most bent; then those of the whole movement. Degrees, torso lengths
 * and shares; not a number where it was not seen.
 */
export const FEATURE_NAMES = [
  ...['elbow', 'shoulder', 'hip', 'knee', 'lean'].flatMap(atBothEnds),
  ...['wrist over shoulder', 'elbow over shoulder', 'hip over knee', 'hip over ankle'].flatMap(atBothEnds),
  ...['shoulder rises', 'hip rises', 'ankle rises', 'rests at', 'off side', 'limbs alike'],
] as const;

function atBothEnds(name: string): readonly string[] {
  return [`${name} low`, `${name} high`];
}

/** Seconds to both sides of an instant whose median stands for it. */
const WINDOW_SECONDS = 0.2;

export function movementFeatures(body: Body, view: View, cycle: Cycle): readonly number[] {
  const { sides, lowSeconds, highSeconds, restsAt } = cycle;
  const side = sides[0]!;
  const ofSides = (samples: (side: Side) => Samples) => {
    const each = sides.map(samples);
    const at = (instants: readonly number[]) =>
      mean(each.map((one) => medianAt(one, instants)).filter((value) => !Number.isNaN(value)));
    return [at(lowSeconds), at(highSeconds)] as const;
  };
  const joint = (name: Parameters<typeof jointSamples>[1]) =>
    ofSides((one) => jointSamples(body, name, one, view));
  const over = (upper: 'wrist' | 'elbow' | 'hip', lower: 'shoulder' | 'knee' | 'ankle') =>
    ofSides((one) => positionSamples(body, `${one}-${upper}`, 'height', `${one}-${lower}`));
  const rise = (point: 'shoulder' | 'hip' | 'ankle') => {
    const [low, high] = ofSides((one) => positionSamples(body, `${one}-${point}`, 'height'));
    return high - low;
  };
  const lean = ofSides(() => trunkLean(body, view)).map(Math.abs);
  return [
    ...joint('elbow-flexion'),
    ...joint('shoulder-elevation'),
    ...joint('hip-flexion'),
    ...joint('knee-flexion'),
    ...lean,
    ...over('wrist', 'shoulder'),
    ...over('elbow', 'shoulder'),
    ...over('hip', 'knee'),
    ...over('hip', 'ankle'),
    ...[rise('shoulder'), rise('hip'), rise('ankle')],
    restsAt ?? Number.NaN,
    view.degreesOffSide / 90,
    limbsAlike(body, view, cycle, side),
  ];
}

/** From front or back: the smaller range of the two limbs over the larger. */
function limbsAlike(body: Body, view: View, cycle: Cycle, side: Side): number {
  if (view.nearSide !== null) return Number.NaN;
  const rangeOf = (one: Side) => {
    const samples = jointSamples(body, cycle.joint, one, view);
    return Math.abs(medianAt(samples, cycle.highSeconds) - medianAt(samples, cycle.lowSeconds));
  };
  const [own, other] = [rangeOf(side), rangeOf(side === 'left' ? 'right' : 'left')];
  return Math.min(own, other) / Math.max(own, other);
}

/** Median over the instants of the median around each. */
function medianAt(samples: Samples, instants: readonly number[]): number {
  const each = instants.map((instant) => {
    const near: number[] = [];
    for (let index = 0; index < samples.seconds.length; index++) {
      if (Math.abs(samples.seconds[index]! - instant) <= WINDOW_SECONDS) near.push(samples.values[index]!);
    }
    return median(near);
  });
  return median(each.filter((value) => value !== null)) ?? Number.NaN;
}

function mean(values: readonly number[]): number {
  return values.length === 0 ? Number.NaN : values.reduce((sum, value) => sum + value, 0) / values.length;
}
