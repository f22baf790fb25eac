/** A value of each feature for each rep in order; null where it was not seen. */
export type Features = readonly (readonly (number | null)[])[];

/** The share of a planned change that must be seen for a switch to count. */
const LEAST_SHARE_OF_PLANNED = 0.4;
/** How many standard errors the two sides of a switch must lie apart. */
const LEAST_STANDARD_ERRORS = 2.5;

/**
 * Splits a run of reps into consecutive parts of constant level by least squares (dynamic programming over
 * all splits; Fisher 1958, "On grouping for maximum homogeneity"), for the largest number of parts in which
 * every change between neighbours is as planned: in its direction, and clear of the spread.
 *
 * @param changes planned change of each feature at each switch, null where the plan leaves a feature alone.
 * @param leastReps fewest reps planned in each part; a lone rep at the end counts as a part only where the
 *   plan let it begin.
 * @returns the number of reps before each switch, ascending; empty where no switch was seen.
 */
export function bestSplit(
  features: Features,
  changes: readonly (readonly (number | null)[])[],
  leastReps: readonly number[],
): readonly number[] {
  for (let parts = Math.min(changes.length + 1, features.length); parts > 1; parts--) {
    const ends = leastSquaresSplit(features, parts);
    const bounds = [0, ...ends, features.length];
    const real = ends.every((end, index) => {
      const before = features.slice(bounds[index]!, end);
      const after = features.slice(end, bounds[index + 2]!);
      const inPlan = end - bounds[index]! >= leastReps[index]!;
      return (after.length > 1 || inPlan) && isRealChange(before, after, changes[index]!);
    });
    if (real) return ends;
  }
  return [];
}

function leastSquaresSplit(features: Features, parts: number): readonly number[] {
  const count = features.length;
  const cost = (from: number, to: number) => squaredDeviations(features.slice(from, to));
  // best[to] is the least cost of cutting the first `to` reps into the parts so far.
  let best = Array.from({ length: count + 1 }, (_, to) => ({
    cost: cost(0, to),
    ends: [] as readonly number[],
  }));
  for (let part = 2; part <= parts; part++) {
    best = best.map((_, to) => {
      const options = Array.from({ length: Math.max(0, to - part + 1) }, (__, offset) => {
        const from = part - 1 + offset;
        return { cost: best[from]!.cost + cost(from, to), ends: [...best[from]!.ends, from] };
      });
      return options.reduce((least, option) => (option.cost < least.cost ? option : least), {
        cost: Number.POSITIVE_INFINITY,
        ends: [] as readonly number[],
      });
    });
  }
  return best[count]!.ends;
}

function isRealChange(before: Features, after: Features, planned: readonly (number | null)[]): boolean {
  return planned.some((change, feature) => {
    if (change === null) return false;
    const first = seenValues(before, feature);
    const second = seenValues(after, feature);
    if (first.length === 0 || second.length === 0) return false;
    const seen = (average(second) - average(first)) * Math.sign(change);
    const deviations = sumOfSquares(first) + sumOfSquares(second);
    const spread = deviations / Math.max(1, first.length + second.length - 2);
    const standardError = Math.sqrt(spread * (1 / first.length + 1 / second.length));
    return seen >= LEAST_SHARE_OF_PLANNED * Math.abs(change) && seen >= LEAST_STANDARD_ERRORS * standardError;
  });
}

function squaredDeviations(part: Features): number {
  const width = part[0]?.length ?? 0;
  return Array.from({ length: width }, (_, feature) => sumOfSquares(seenValues(part, feature))).reduce(
    (sum, value) => sum + value,
    0,
  );
}

function seenValues(part: Features, feature: number): readonly number[] {
  return part.map((values) => values[feature] ?? null).filter((value) => value !== null);
}

function sumOfSquares(values: readonly number[]): number {
  if (values.length === 0) return 0;
  const centre = average(values);
  return values.reduce((sum, value) => sum + (value - centre) ** 2, 0);
}

function average(values: readonly number[]): number {
  return values.reduce((sum, value) => sum + value, 0) / values.length;
}
