import { knotSeconds, type SpeedSpline, valueAt } from '../../core/motion/speedSpline.js';

/** A turning point of a curve, or one of its two ends. */
export interface Extreme {
  readonly seconds: number;
  readonly value: number;
  readonly kind: 'high' | 'low';
  /** True for the first and last instant of the curve, where nobody knows what came before or after. */
  readonly atEdge: boolean;
}

/**
 * The turning points of a curve that stand out by at least `threshold` on both sides, alternating between high
 * and low, with the curve's two ends as first and last. A curve that never moves by the threshold has none.
 */
export function alternatingExtremes(spline: SpeedSpline, threshold: number): readonly Extreme[] {
  const count = spline.cells + 1;
  const seconds = new Float64Array(count);
  const values = new Float64Array(count);
  for (let knot = 0; knot < count; knot++) {
    seconds[knot] = knotSeconds(spline, knot);
    values[knot] = valueAt(spline, seconds[knot]!);
  }
  const turns = turningIndices(values, threshold);
  return turns.map(({ index, kind }) => ({
    seconds: seconds[index]!,
    value: values[index]!,
    kind,
    atEdge: index === 0 || index === count - 1,
  }));
}

interface Turn {
  readonly index: number;
  readonly kind: 'high' | 'low';
}

/** Follows the values, keeping the furthest point of the present direction until they come back by the threshold. */
function turningIndices(values: Float64Array, threshold: number): readonly Turn[] {
  const turns: Turn[] = [];
  let highest = 0;
  let lowest = 0;
  let direction: 'up' | 'down' | null = null;
  for (let i = 1; i < values.length; i++) {
    if (values[i]! > values[highest]!) highest = i;
    if (values[i]! < values[lowest]!) lowest = i;
    if (direction !== 'down' && values[highest]! - values[i]! >= threshold) {
      if (direction === null && highest > 0) turns.push(...opening(values, highest, 'high', threshold));
      turns.push({ index: highest, kind: 'high' });
      direction = 'down';
      lowest = i;
      highest = i;
    } else if (direction !== 'up' && values[i]! - values[lowest]! >= threshold) {
      if (direction === null && lowest > 0) turns.push(...opening(values, lowest, 'low', threshold));
      turns.push({ index: lowest, kind: 'low' });
      direction = 'up';
      highest = i;
      lowest = i;
    }
  }
  if (direction === null) return [];
  turns.push(direction === 'up' ? { index: highest, kind: 'high' } : { index: lowest, kind: 'low' });
  return turns;
}

/** The curve's beginning as an extreme of its own, where the first turn is preceded by a move of some size. */
function opening(
  values: Float64Array,
  first: number,
  kind: 'high' | 'low',
  threshold: number,
): readonly Turn[] {
  if (Math.abs(values[first]! - values[0]!) < threshold / 2) return [];
  return [{ index: 0, kind: kind === 'high' ? 'low' : 'high' }];
}
