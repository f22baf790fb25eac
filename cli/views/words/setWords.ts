import { formatLoad } from '../../../analysis/plan/load.js';
import type { SetLoads } from '../../../analysis/plan/plannedLoads.js';
import type { BoutFigures } from '../../history/sets/figures.js';
import type { SetDetails } from '../../history/sets/savedSet.js';

/** The load, or the loads of the stages with arrows between; empty where none was given. */
export function loadWords({ load, stageLoads }: Pick<SetLoads, 'load' | 'stageLoads'>): string {
  if (stageLoads !== null && stageLoads.length > 0) return stageLoads.map(formatLoad).join(' → ');
  return load === null ? '' : formatLoad(load);
}

/** What is worth saying about a set beside its figures. */
export function marks(set: {
  readonly details: SetDetails;
  readonly amendments: number;
  readonly invented: boolean;
}): string {
  return [
    set.details.warmUp ? 'warm-up' : '',
    set.amendments > 0 ? 'amended' : '',
    set.invented ? 'invented' : '',
  ]
    .filter((mark) => mark !== '')
    .join(', ');
}

/** One side's last controlled rep; "none" where the first two came down too quickly already. */
export function controlOf({ lastControlledRep, deliveredLoweringShare }: BoutFigures): string {
  if (lastControlledRep !== null) return `to ${lastControlledRep}`;
  return deliveredLoweringShare === null ? '·' : 'none';
}
