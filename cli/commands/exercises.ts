import type { Program } from './registration.js';

/** `tempofilm exercises`: what is known, which joint times it, how to film it. */
export function registerExercises(program: Program): void {
  program
    .command('exercises')
    .summary('which exercises are known, and how to film each')
    .description(
      'Lists the known exercises; with a name, says which joint times it and where to put the phone.',
    )
    .argument('[exercise]', 'an exercise, or part of its name')
    .option('--exercise-file <file>', 'exercises of your own, beside those that are built in')
    .addHelpText(
      'after',
      '\nExamples:\n  tempofilm exercises\n  tempofilm exercises single-arm-row\n  tempofilm exercises raise',
    )
    .action(async (name, options) => {
      const { knownExercises } = await import('../exercises/knownExercises.js');
      const { showExercises } = await import('../exercises/showExercises.js');
      process.stdout.write(showExercises(name ?? null, await knownExercises(options.exerciseFile)));
    });
}
