import type { Program } from './registration.js';

/** `tempofilm demo-history`: something to look at before there are weeks of sets. */
export function registerDemoHistory(program: Program): void {
  program
    .command('demo-history')
    .summary('make a history of invented sets to look at')
    .description(
      'Saves twelve weeks of invented sets, each marked as invented, to try history and compare with.',
    )
    .requiredOption('--history <file>', 'the file to save them in; your own history is left alone')
    .addHelpText('after', EXAMPLES)
    .action(async (options) => {
      const { saveDemoHistory } = await import('../savedSets/saveDemoHistory.js');
      saveDemoHistory(options.history);
    });
}

const EXAMPLES = `
Examples:
  tempofilm demo-history --history invented.sqlite
  tempofilm history --history invented.sqlite`;
