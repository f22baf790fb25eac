import { withHistoryOption } from '../options/historyOptions.js';
import type { Program } from './registration.js';

/** `tempofilm backup`: a copy of the history, or a copy put back. */
export function registerBackup(program: Program): void {
  withHistoryOption(
    program
      .command('backup')
      .summary('copy the history, or put a copy back')
      .description('Copies the whole history into one file, beside it unless a place is named.')
      .argument('[file]', 'where to copy it')
      .option('--restore [backup]', 'put this copy back (the newest one beside the history unless named)'),
  )
    .addHelpText('after', EXAMPLES)
    .action(async (file, options) => {
      const { backUp } = await import('../savedSets/backUp.js');
      backUp(file ?? null, options);
    });
}

const EXAMPLES = `
Examples:
  tempofilm backup                        a copy beside the history, named after the day
  tempofilm backup history-copy.sqlite    a copy in a place of your own
  tempofilm backup --restore              the newest copy, put back`;
