import { Option } from '@commander-js/extra-typings';
import { parseWorkers } from '../options/values.js';
import type { Program } from './registration.js';

/** `tempofilm check`: can this film answer, for which exercises, and what to change. */
export function registerCheck(program: Program): void {
  program
    .command('check')
    .summary('can this film answer, and what to change')
    .description(
      'Looks at a few pictures of each film and says in seconds what it can be asked, before any long analysis.',
    )
    .argument('<film...>', 'films to look at')
    .option('--exercise <id>', 'judge for this exercise alone')
    .option('--exercise-file <file>', 'exercises of your own, beside those that are built in')
    .addOption(
      new Option('--format <format>', 'how to print the answer')
        .choices(['text', 'json'] as const)
        .default('text' as const),
    )
    .option('--workers <number>', 'processor cores to use (one unless given)', parseWorkers)
    .option('--ffmpeg <path>', 'the ffmpeg program to use')
    .addHelpText(
      'after',
      '\nExamples:\n  tempofilm check row.mp4\n  tempofilm check squat.mov --exercise squat',
    )
    .action(async (films, options) => {
      const { checkFilms } = await import('../pipeline/checkFilms.js');
      process.exitCode = await checkFilms(films, options);
    });
}
