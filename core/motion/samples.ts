/**
 * A quantity measured at irregular times, only where it was seen: a gap in `seconds` is a gap in the
 * measurement. The three arrays have equal length; `seconds` ascends strictly.
 */
export interface Samples {
  readonly seconds: Float64Array;
  /** In the unit the name of the variable states; joint angles in degrees. */
  readonly values: Float64Array;
  /** Standard error of each value from keypoint noise, same unit; relative weights matter most. */
  readonly standardErrors: Float64Array;
}

/** Positions of the samples between two times, both included. */
export function indicesWithin(
  { seconds }: Samples,
  fromSeconds: number,
  toSeconds: number,
): readonly number[] {
  return Array.from(seconds.keys()).filter(
    (index) => seconds[index]! >= fromSeconds && seconds[index]! <= toSeconds,
  );
}
