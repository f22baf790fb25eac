import { withHistoryOption } from '../options/historyOptions.js';
import type { Program } from './registration.js';

/** `tempofilm import`: takes in what export wrote. */
export function registerImport(program: Program): void {
  withHistoryOption(
    program
      .command('import')
      .summary('take in exported sets')
      .description(
        'Takes in sets that export wrote as JSON lines. Taking the same file in twice changes nothing.',
      )
      .argument('<file>', 'the exported file; - reads standard input'),
  )
    .addHelpText('after', EXAMPLES)
    .action(async (file, options) => {
      const { importHistory } = await import('../savedSets/importHistory.js');
      importHistory(file, options);
    });
}

const EXAMPLES = `
Examples:
  tempofilm import sets.jsonl`;
