import { withFilmOptions } from '../options/filmOptions.js';
import { withSetOptions } from '../options/setOptions.js';
import type { Program } from './registration.js';

/** `tempofilm positions`: both ends and the middle of every rep as one picture. */
export function registerPositions(program: Program): void {
  const command = program
    .command('positions')
    .summary('put both ends and the middle of every rep on one sheet')
    .description(
      'Puts three pictures of every rep on one sheet: the contracted end, the middle of the lowering, and the stretched end, each with its angle and its time in the film.',
    )
    .argument('<film>', 'the film of a set');

  withFilmOptions(withSetOptions(command))
    .requiredOption('-o, --output <path>', 'the picture to write (.png)')
    .option('--figure-only', 'draw the figure on a plain background, so that nobody can be recognised')
    .option('--force', 'replace the file if it exists')
    .option('--quiet', 'no progress, no notes')
    .addHelpText('after', EXAMPLES)
    .action(async (film, options) => {
      const { writePositionSheet } = await import('../pipeline/writePositionSheet.js');
      process.exitCode = await writePositionSheet(film, options);
    });
}

const EXAMPLES = `
Examples:
  tempofilm positions row.mp4 --exercise single-arm-row -o row-positions.png
  tempofilm positions squat.mp4 --exercise squat --figure-only -o squat-positions.png`;
