import { Option } from '@commander-js/extra-typings';
import { acceleratorOption, qualityOption } from '../options/filmOptions.js';
import { withHistoryOption } from '../options/historyOptions.js';
import { parseWorkers } from '../options/values.js';
import type { Program } from './registration.js';

/** `tempofilm session`: a whole workout against its plan. */
export function registerSession(program: Program): void {
  withHistoryOption(
    program
      .command('session')
      .summary('a whole workout against its plan, a line a set')
      .description(
        'Takes the films of one workout in order of recording, gives each its planned set, and shows sets and rests.',
      )
      .argument('<films...>', 'a folder, or the films')
      .requiredOption('--plan <file>', 'the plan of the session')
      .addOption(
        new Option('--format <format>', 'how to print it')
          .choices(['text', 'json'] as const)
          .default('text' as const),
      )
      .addOption(qualityOption())
      .option('--workers <number>', 'processor cores to use (all of them unless given)', parseWorkers)
      .addOption(acceleratorOption())
      .option('--ffmpeg <path>', 'the ffmpeg program to use')
      .option('--exercise-file <file>', 'exercises of your own, beside those that are built in')
      .option('--page <path>', 'also write a page of the workout')
      .option('--force', 'replace a page that exists')
      .option('--no-save', 'leave the history as it is')
      .option('--quiet', 'no progress, no notes'),
  )
    .addHelpText('after', EXAMPLE)
    .action(async (films, options) => {
      const { showSession } = await import('../session/showSession.js');
      process.exitCode = await showSession(films, options);
    });
}

const EXAMPLE = `
Examples:
  tempofilm session ~/Films/tuesday --plan garage.yaml
  tempofilm session row.mp4 raise.mp4 --plan garage.yaml --no-save

A plan, in YAML (what is left out is not prescribed):
  name: Garage, Tuesday
  exercises:
    - exercise: single-arm-row
      sets: 3
      tempo: 4-0-1-1
      reps: 8-10
      load: 14kg
      rest: 90            # seconds after each set; of a pair, after each turn of both
      pair: A             # the same letter: done back to back
    - exercise: lateral-raise
      stages:
        - { tempo: 5-0-1-1, reps: 8-10, load: 5kg }
        - { tempo: 1-0-X-0, reps: 5-10 }

Films take the planned sets in order of recording; a film named after an exercise takes that exercise's next
set. README.md tells every field of a plan.`;
