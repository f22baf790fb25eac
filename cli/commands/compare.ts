import { Option } from '@commander-js/extra-typings';
import { withHistoryOption } from '../options/historyOptions.js';
import type { Program } from './registration.js';

/** `tempofilm compare`: one set against another. */
export function registerCompare(program: Program): void {
  withHistoryOption(
    program
      .command('compare')
      .summary('one set against another, rep by rep and as a whole')
      .description(
        'Compares two saved sets of one exercise and says which differences the camera can really tell.',
      )
      .argument('<first>', 'a set (its number, or last) or its film; 12:left for one side of it')
      .argument('<second>', 'the same; differences are second minus first')
      .addOption(
        new Option('--format <format>', 'how to print it')
          .choices(['text', 'json'] as const)
          .default('text' as const),
      ),
  )
    .addHelpText(
      'after',
      `
Examples:
  tempofilm compare 3 last              the first week against today
  tempofilm compare 12:left 12:right    left against right
  tempofilm compare monday.mp4 friday.mp4`,
    )
    .action(async (first, second, options) => {
      const { compareSets } = await import('../history/actions/compareSets.js');
      await compareSets(first, second, options);
    });
}
