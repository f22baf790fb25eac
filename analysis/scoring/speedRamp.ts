import { median } from 'simple-statistics';
import type { BoutReport, RepReport } from '../report/setReport.js';
import { concentricOf, countsAsComplete, eccentricOf } from './fatigue.js';

/** Cameras slow film down four or eight times; less happens in training. */
const LEAST_FACTOR = 3;
/** Reps this near the quickest, or the slowest, belong to them; those between lie in the ramp itself. */
const SAME_PACE = 1.5;
const MOST_REPS_IN_THE_RAMP = 2;
const FEWEST_REPS_OF_EACH_PACE = 2;
/** A slowed film slows lowering and lift alike; a lifter who slows down rarely keeps their ratio so well. */
const SAME_BALANCE = 1.5;

/**
 * Whether neighbouring reps of a bout took several times as long as the others in both directions at once: what a
 * film looks like whose slow motion, with its ramps, was made part of the film when it was shared. Rate and tags of
 * such a film are those of any other. A lifter who changes from quick reps to slow ones in both directions looks the
 * same, so this is a reason to ask, not to correct. Thresholds: common practice, no source.
 */
export function looksRamped(bout: BoutReport): boolean {
  const reps = bout.reps.filter(countsAsComplete).flatMap((rep) => movesOf(rep) ?? []);
  if (reps.length < 2 * FEWEST_REPS_OF_EACH_PACE) return false;
  const paces = reps.map(({ lowering, lift }) => Math.sqrt(lowering * lift));
  const quickest = Math.min(...paces);
  const slowest = Math.max(...paces);
  if (slowest < LEAST_FACTOR * quickest) return false;
  const groups = paces.map((pace) => {
    if (pace <= SAME_PACE * quickest) return 'quick';
    return pace >= slowest / SAME_PACE ? 'slow' : 'between';
  });
  const count = (group: string) => groups.filter((one) => one === group).length;
  if (Math.min(count('quick'), count('slow')) < FEWEST_REPS_OF_EACH_PACE) return false;
  if (count('between') > MOST_REPS_IN_THE_RAMP) return false;
  const slowTogether = groups.slice(groups.indexOf('slow'), groups.lastIndexOf('slow') + 1);
  if (slowTogether.includes('quick')) return false;
  const balance = (group: string) =>
    median(reps.filter((_, index) => groups[index] === group).map(({ lowering, lift }) => lowering / lift));
  const change = balance('slow') / balance('quick');
  return change < SAME_BALANCE && change > 1 / SAME_BALANCE;
}

function movesOf(rep: RepReport): { readonly lowering: number; readonly lift: number } | null {
  const lowering = eccentricOf(rep)?.seconds ?? 0;
  const lift = concentricOf(rep)?.seconds ?? 0;
  return lowering > 0 && lift > 0 ? { lowering, lift } : null;
}
