import { withHistoryOption } from '../options/historyOptions.js';
import type { Program } from './registration.js';

/** `tempofilm delete`: takes sets out of the history; the films stay. */
export function registerDelete(program: Program): void {
  withHistoryOption(
    program
      .command('delete')
      .summary('take sets out of the history')
      .description('Deletes saved sets after asking. The films are never touched.')
      .argument('<set...>', 'numbers of sets, "last", or their films')
      .option('--yes', 'do not ask'),
  )
    .addHelpText('after', EXAMPLES)
    .action(async (sets, options) => {
      const { deleteSets } = await import('../savedSets/deleteSets.js');
      await deleteSets(sets, options);
    });
}

const EXAMPLES = `
Examples:
  tempofilm delete last
  tempofilm delete 3 4 5 --yes`;
