/**
 * Place of the first `true` that is followed by another, or that is the last of all; null where there is none.
 * One odd rep in the middle of a set is no turning point; a last one may be.
 */
export function firstOfTwoInARow(flags: readonly boolean[]): number | null {
  const index = flags.findIndex((flag, place) => flag && (place === flags.length - 1 || flags[place + 1]!));
  return index === -1 ? null : index;
}
