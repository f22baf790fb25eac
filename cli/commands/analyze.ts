import { Option } from '@commander-js/extra-typings';
import { withFilmOptions } from '../options/filmOptions.js';
import { withSetOptions } from '../options/setOptions.js';
import type { Program } from './registration.js';

/** `tempofilm analyze`: films of a set in, the tempo of every rep out. */
export function registerAnalyze(program: Program): void {
  const command = program
    .command('analyze')
    .summary('time every lowering, hold and lift of a filmed set')
    .description(
      'Times every lowering, hold and lift of the set in each film and holds them against the plan.',
    )
    .argument('<film...>', 'films, one set each');

  withFilmOptions(withSetOptions(command))
    .addOption(
      new Option('--format <format>', 'how to print the answer')
        .choices(['text', 'json', 'csv'] as const)
        .default('text' as const),
    )
    .option('-o, --output <path>', 'write the answer to this file')
    .option('--curve <path>', 'also write the angle over time as CSV, a row a point')
    .option('--page <path>', 'also write a page with pictures to look at or send')
    .option('--embed-film', 'carry a small copy of the film inside the page')
    .option('--figure-only', 'show a moving figure on the page in place of the film')
    .option('--open', 'open the page')
    .option('--force', 'replace files that exist')
    .option('--save', 'keep the set in the history (this is the default)')
    .option('--no-save', 'leave the history as it is')
    .option('--history <file>', 'the history file to keep the set in')
    .option('--lifter-name <name>', 'who lifted, where several people share this machine')
    .option('--note <text>', 'a note to keep with the set')
    .option('--warm-up', 'mark the set as a warm-up in the history')
    .option('--quiet', 'no progress, no notes')
    .addHelpText('after', EXAMPLES)
    .action(async (films, options) => {
      const { analyzeFilms } = await import('../pipeline/analyzeFilms.js');
      process.exitCode = await analyzeFilms(films, options);
    });
}

const EXAMPLES = `
A tempo is four numbers: seconds lowering, held stretched, lifting, held contracted.
X means as fast as you can, _ means whatever comes.

Examples:
  tempofilm analyze row.mp4 --exercise single-arm-row --tempo 4-0-1-1 --reps 8-10
  tempofilm analyze raise.mov --exercise lateral-raise --stage 5-0-1-1:8-10 --stage 1-0-X-0:5-10
  tempofilm analyze squat.mp4 --exercise squat --page squat.html --open
  tempofilm analyze squat.mp4 --exercise squat --format json --output squat.json
  tempofilm analyze long.mp4 --exercise curl --from 0:40 --to 1:35 --load 10kg
  tempofilm analyze 1.mp4 2.mp4 3.mp4 --exercise squat --plan evening.yaml    sets 1, 2, 3 of the plan`;
