import { Option } from '@commander-js/extra-typings';
import { withHistoryOption } from '../options/historyOptions.js';
import type { Program } from './registration.js';

/** `tempofilm show`: a saved set again. */
export function registerShow(program: Program): void {
  withHistoryOption(
    program
      .command('show')
      .summary('a saved set again')
      .description('Shows a saved set as it was printed when it was analyzed.')
      .argument('<set>', 'its number, "last" for the one saved last, or its film')
      .addOption(
        new Option('--format <format>', 'how to print it')
          .choices(['text', 'json', 'csv'] as const)
          .default('text' as const),
      )
      .option('--measured', 'as measured, without what was amended')
      .option('--page <path>', 'also write its page')
      .option('--force', 'replace a page that exists'),
  ).action(async (set, options) => {
    const { showSet } = await import('../history/actions/showSet.js');
    await showSet(set, options);
  });
}
