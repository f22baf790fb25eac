import { Option } from '@commander-js/extra-typings';
import { parseSince, withHistoryOption } from '../options/historyOptions.js';
import type { Program } from './registration.js';

/** `tempofilm export`: the history as text. */
export function registerExport(program: Program): void {
  withHistoryOption(
    program
      .command('export')
      .summary('write the history as text')
      .description('Writes the saved sets as JSON lines that import takes in again, or as a table.')
      .addOption(
        new Option('--format <format>', 'JSON lines hold everything; csv holds the figures of each bout')
          .choices(['json-lines', 'csv'] as const)
          .default('json-lines' as const),
      )
      .option('--since <day>', 'from this day on (2026-03-01), or so long back ("6 weeks")', (text) =>
        parseSince(text),
      )
      .option('--lifter <name>', 'only this person’s sets')
      .option('--no-tracks', 'leave out the pose tracks: small, but the sets can’t be scored again elsewhere')
      .option('-o, --output <path>', 'write to this file')
      .option('--force', 'replace a file that exists'),
  )
    .addHelpText('after', EXAMPLES)
    .action(async (options) => {
      const { exportHistory } = await import('../savedSets/exportHistory.js');
      await exportHistory(options);
    });
}

const EXAMPLES = `
Examples:
  tempofilm export --output sets.jsonl                  to keep, or to take to another machine
  tempofilm export --format csv --since "8 weeks"       a table, a row a bout`;
