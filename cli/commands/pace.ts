import { Option } from '@commander-js/extra-typings';
import { gathered } from '../options/values.js';
import type { Program } from './registration.js';

/** `tempofilm pace`: a sound track that counts the planned tempo. */
export function registerPace(program: Program): void {
  program
    .command('pace')
    .summary('make a sound track that counts a tempo for your next set')
    .description(
      'Writes a WAVE file: a count-in, a tone where each phase begins (low for lowering, high for lifting), a click on every second inside it, and a long tone at the end.',
    )
    .argument('[tempo]', 'seconds lowering, held stretched, lifting, held contracted (4-0-1-1)')
    .option('--reps <reps>', 'how many reps (of a range, the most)')
    .option(
      '--stage <tempo:reps>',
      'one part of the set with its own tempo; repeat for the next part (5-0-1-1:8)',
      gathered,
    )
    .option('--exercise <id>', 'takes the start and the words from this exercise')
    .addOption(
      new Option('--start <end>', 'where a rep begins').choices(['stretched', 'contracted'] as const),
    )
    .requiredOption('-o, --output <path>', 'the WAVE file to write')
    .option('--force', 'replace a file that exists')
    .addHelpText(
      'after',
      '\nExamples:\n  tempofilm pace 4-0-1-1 --reps 8 -o pace.wav\n  tempofilm pace --stage 5-0-1-1:8 --stage 1-0-X-0:6 --exercise lateral-raise -o raise.wav',
    )
    .action(async (tempo, options) => {
      const { writePacingTrack } = await import('../pace/writePacingTrack.js');
      process.stdout.write(`${await writePacingTrack(tempo, options)}\n`);
    });
}
