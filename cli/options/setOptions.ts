import { type Command, Option, type OptionValues } from '@commander-js/extra-typings';
import { gathered, parseNumberFromZero } from './values.js';

/** Options that say what the set was meant to be: exercise, plan, side, load. */
export function withSetOptions<
  // biome-ignore lint/suspicious/noExplicitAny: the bound that the typings of commander set themselves
  Arguments extends any[],
  Options extends OptionValues,
  Globals extends OptionValues,
>(command: Command<Arguments, Options, Globals>) {
  return command
    .option('--exercise <id>', 'what was done; `tempofilm exercises` lists them')
    .option(
      '--tempo <tempo>',
      'planned seconds: lowering, stretched hold, lift, contracted hold (4-0-1-1, 40X1)',
    )
    .option('--reps <range>', 'planned reps (8 or 8-10)')
    .option(
      '--stage <tempo:reps>',
      'one part of a set with its own tempo; repeat for the next part (5-0-1-1:8-10)',
      gathered,
    )
    .option('--plan <file>', 'read the plan from a YAML file, as in `tempofilm session --help`')
    .option('--without-plan', 'there was no plan, whatever a saved set of the film says')
    .option(
      '--tolerance <seconds>',
      'how far from the plan still counts as met (0.3 s or 15 % of the plan unless given)',
      parseNumberFromZero,
    )
    .option('--rest <seconds>', 'planned rest after the set', parseNumberFromZero)
    .addOption(
      new Option('--side <side>', 'whose work to report').choices(['left', 'right', 'both'] as const),
    )
    .option('--mirrored', 'the film shows a mirror image (selfie camera, mirror on the wall)')
    .option('--no-mirrored', 'it shows none, whatever a saved set of the film says')
    .option(
      '--load <load>',
      '20kg, 45lb, bodyweight or pin 7; repeat it for the load of each stage',
      gathered,
    )
    .option('--exercise-file <file>', 'exercises of your own, beside those that are built in');
}

/** The options above, as read. */
export interface SetOptions {
  readonly exercise?: string | undefined;
  readonly tempo?: string | undefined;
  readonly reps?: string | undefined;
  readonly stage?: readonly string[] | undefined;
  readonly plan?: string | undefined;
  readonly withoutPlan?: true | undefined;
  readonly tolerance?: number | undefined;
  readonly rest?: number | undefined;
  readonly side?: 'left' | 'right' | 'both' | undefined;
  readonly mirrored?: boolean | undefined;
  readonly load?: readonly string[] | undefined;
  readonly exerciseFile?: string | undefined;
}
