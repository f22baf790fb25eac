import { Option } from '@commander-js/extra-typings';
import { parseSince, withHistoryOption } from '../options/historyOptions.js';
import type { Program } from './registration.js';

/** `tempofilm history`: what changed over the weeks. */
export function registerHistory(program: Program): void {
  withHistoryOption(
    program
      .command('history')
      .summary('what changed over the weeks')
      .description(
        'Shows the saved sets over time: lowering delivered, lowering time, range, control, and whether they move.',
      )
      .argument('[exercise]', 'an exercise, or part of its name')
      .option('--since <day>', 'from this day on (2026-03-01), or so long back ("6 weeks")', (text) =>
        parseSince(text),
      )
      .option('--lifter <name>', 'only this person’s sets')
      .addOption(new Option('--side <side>', 'only this side').choices(['left', 'right', 'both'] as const))
      .addOption(
        new Option('--format <format>', 'how to print it')
          .choices(['text', 'json', 'csv'] as const)
          .default('text' as const),
      )
      .option('--page <path>', 'also write a page with the plots')
      .option('--force', 'replace a page that exists'),
  )
    .addHelpText(
      'after',
      `
A trend is named only over sets like the latest (view, load, planned tempo), with at least five of them,
and only where it is more than the camera's own uncertainty.

Examples:
  tempofilm history
  tempofilm history single-arm-row --since "8 weeks"
  tempofilm history curl --side left --format csv > curl.csv`,
    )
    .action(async (exercise, options) => {
      const { showHistory } = await import('../savedSets/showHistory.js');
      await showHistory({ exercise: exercise ?? null, ...options });
    });
}
