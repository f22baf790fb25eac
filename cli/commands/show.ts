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
      .option('--embed-film', 'carry a small copy of the film inside the page')
      .option('--figure-only', 'show a moving figure on the page in place of the film')
      .option('--open', 'open the page')
      .option('--force', 'replace a page that exists')
      .option('--quiet', 'no progress, no notes')
      .option('--ffmpeg <path>', 'the ffmpeg program to use, for --embed-film')
      .addHelpText('after', EXAMPLES),
  ).action(async (set, options) => {
    const { showSet } = await import('../savedSets/showSet.js');
    await showSet(set, options);
  });
}

const EXAMPLES = `
Examples:
  tempofilm show last                          the set that was saved last
  tempofilm show 12 --page rows.html --open    set 12 as a page, in the browser
  tempofilm show row.mp4 --format csv          every rep of this film's set as a table`;
