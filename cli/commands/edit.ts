import { withHistoryOption } from '../options/historyOptions.js';
import { gathered, parseNumberFromZero } from '../options/values.js';
import type { Program } from './registration.js';

/** `tempofilm edit`: corrects what is known about a saved set. */
export function registerEdit(program: Program): void {
  withHistoryOption(
    program
      .command('edit')
      .summary('correct load, note, exercise or plan of a saved set')
      .description(
        'Corrects a saved set. With another exercise or plan it is scored anew from its stored track; the film is not needed.',
      )
      .argument('<set>', 'its number, "last", or its film')
      .option(
        '--load <load>',
        '20kg, 45lb, bodyweight or pin 7; repeat it for the load of each stage',
        gathered,
      )
      .option('--lifter <name>', 'who lifted; "" takes the name away')
      .option('--note <text>', 'a note; "" takes it away')
      .option('--warm-up', 'mark as warm-up')
      .option('--no-warm-up', 'no longer a warm-up')
      .option('--exercise <id>', 'what was really done')
      .option('--exercise-file <file>', 'exercises of your own, beside those that are built in')
      .option('--tempo <tempo>', 'the planned tempo (4-0-1-1, 40X1)')
      .option('--reps <range>', 'planned reps (8 or 8-10)')
      .option('--stage <tempo:reps>', 'one part of the set; repeat for the next', gathered)
      .option('--rest <seconds>', 'planned rest', parseNumberFromZero)
      .option('--without-plan', 'there was no plan'),
  )
    .addHelpText(
      'after',
      `
Examples:
  tempofilm edit last --load 14kg --note "left shoulder stiff"
  tempofilm edit 12 --tempo 5-0-1-1 --reps 8-10`,
    )
    .action(async (set, { withoutPlan, ...options }) => {
      const { editSet } = await import('../savedSets/editSet.js');
      await editSet(set, { ...options, noPlan: withoutPlan });
    });
}
