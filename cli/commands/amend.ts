import { Option } from '@commander-js/extra-typings';
import { withHistoryOption } from '../options/historyOptions.js';
import { parseCount } from '../options/values.js';
import type { Program } from './registration.js';

/** `tempofilm amend`: drop a rep that was none; the measurement stays beside it. */
export function registerAmend(program: Program): void {
  withHistoryOption(
    program
      .command('amend')
      .summary('drop a rep that was none')
      .description(
        'Drops reps of a saved set. The measurement is kept beside it, and the set is shown as amended.',
      )
      .argument('<set>', 'its number, "last", or its film')
      .option('--drop <rep>', 'the number of the rep; repeat for more', (text, before: number[] = []) => [
        ...before,
        parseCount(text),
      ])
      .addOption(new Option('--side <side>', 'of which side').choices(['left', 'right', 'both'] as const))
      .option('--reason <text>', 'why, to be shown with it')
      .option('--undo', 'take every drop of this set back'),
  )
    .addHelpText('after', EXAMPLES)
    .action(async (set, options) => {
      const { amendSet } = await import('../savedSets/amendSet.js');
      await amendSet(set, options);
    });
}

const EXAMPLES = `
Examples:
  tempofilm amend last --drop 1 --reason "took the bell off the floor"
  tempofilm amend 12 --drop 7 --side left
  tempofilm amend 12 --undo`;
