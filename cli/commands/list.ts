import { parseSince, withHistoryOption } from '../options/historyOptions.js';
import type { Program } from './registration.js';

/** `tempofilm list`: the saved sets and their numbers. */
export function registerList(program: Program): void {
  withHistoryOption(
    program
      .command('list')
      .summary('the saved sets and their numbers')
      .description('Lists the saved sets, the latest first, with the number that other commands take.')
      .argument('[exercise]', 'an exercise, or part of its name')
      .option('--since <day>', 'from this day on (2026-03-01), or so long back ("6 weeks")', (text) =>
        parseSince(text),
      )
      .option('--lifter <name>', 'only this person’s sets')
      .option('--all', 'all of them, not only the latest twenty'),
  )
    .addHelpText('after', EXAMPLES)
    .action(async (exercise, options) => {
      const { listSets } = await import('../savedSets/listSets.js');
      listSets(exercise ?? null, options);
    });
}

const EXAMPLES = `
Examples:
  tempofilm list
  tempofilm list row --since "6 weeks"`;
