import { Option } from '@commander-js/extra-typings';
import { qualityOption } from '../options/filmOptions.js';
import { withHistoryOption } from '../options/historyOptions.js';
import { parseWorkers } from '../options/values.js';
import type { Program } from './registration.js';

/** `tempofilm compare`: one set against another. */
export function registerCompare(program: Program): void {
  withHistoryOption(
    program
      .command('compare')
      .summary('one set against another, rep by rep and as a whole')
      .description(
        'Compares two sets of one exercise and says which differences the camera can really tell. A film that is not saved yet is measured for this alone.',
      )
      .argument('<first>', 'a set (its number, or last) or its film; 12:left for one side of it')
      .argument('<second>', 'the same; differences are second minus first')
      .addOption(
        new Option('--format <format>', 'how to print it')
          .choices(['text', 'json'] as const)
          .default('text' as const),
      )
      .option('--page <path>', 'also write a page with the pictures')
      .option('--force', 'replace a page that exists')
      .option('--exercise <id>', 'what films show that are not saved (that of the other set unless given)')
      .option('--exercise-file <file>', 'exercises of your own, beside those that are built in')
      .option('--mirrored', 'films that are not saved show a mirror image')
      .addOption(qualityOption())
      .option('--workers <number>', 'processor cores to use (all of them unless given)', parseWorkers)
      .option('--ffmpeg <path>', 'the ffmpeg program to use')
      .option('--quiet', 'no progress, no notes'),
  )
    .addHelpText(
      'after',
      `
Examples:
  tempofilm compare 3 last              the first week against today
  tempofilm compare 12:left 12:right    left against right
  tempofilm compare monday.mp4 friday.mp4 --exercise squat --page both.html`,
    )
    .action(async (first, second, options) => {
      const { compareSets } = await import('../savedSets/compareSets.js');
      process.exitCode = await compareSets(first, second, options);
    });
}
