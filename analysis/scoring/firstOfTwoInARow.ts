/**
 * Place of the first `true` that is followed by another, or that is the last of all; null where there is none.
 * One odd rep in the middle of a set is no turning point; a last one may be.
 */
export function firstOfTwoInARow(flags: readonly boolean[]): number | null {
  const index = flags.findIndex((flag, place) => flag && (place === flags.length - 1 || flags[place + 1]!));
  return index === -1 ? null : index;
}

/** "rep 7", "reps 3 and 7", "reps 3, 5 and 7": reps out of line that are no turning point. */
export function repsInWords(numbers: readonly number[]): string {
  if (numbers.length === 1) return `rep ${numbers[0]}`;
  return `reps ${numbers.slice(0, -1).join(', ')} and ${numbers.at(-1)}`;
}
