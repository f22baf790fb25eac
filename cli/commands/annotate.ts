import { withFilmOptions } from '../options/filmOptions.js';
import { withSetOptions } from '../options/setOptions.js';
import type { Program } from './registration.js';

/** `tempofilm annotate`: the film again, with tempo and figure drawn over it. */
export function registerAnnotate(program: Program): void {
  const command = program
    .command('annotate')
    .summary('write the film with the tempo drawn over it')
    .description(
      'Writes a copy of the film with the figure of the lifter, the running seconds of each phase against the plan, the number of the rep, and how each phase came out. The film itself stays as it is.',
    )
    .argument('<film>', 'the film of a set');

  withFilmOptions(withSetOptions(command))
    .requiredOption('-o, --output <path>', 'the film to write (.mp4)')
    .option('--sound', 'keep the sound')
    .option('--figure-only', 'show the figure on a plain background, so that nobody can be recognised')
    .option('--force', 'replace the file if it exists')
    .option('--quiet', 'no progress, no notes')
    .addHelpText('after', EXAMPLES)
    .action(async (film, options) => {
      const { annotateFilm } = await import('../pipeline/annotateFilm.js');
      process.exitCode = await annotateFilm(film, options);
    });
}

const EXAMPLES = `
Sound is left out unless you ask for it: rooms have other people in them.

Examples:
  tempofilm annotate row.mp4 --exercise single-arm-row --tempo 4-0-1-1 -o row-annotated.mp4
  tempofilm annotate row.mp4 --exercise single-arm-row --figure-only -o row-figure.mp4`;
