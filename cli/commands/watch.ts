import { withFilmOptions } from '../options/filmOptions.js';
import { withSetOptions } from '../options/setOptions.js';
import type { Program } from './registration.js';

/** `tempofilm watch`: films that arrive in a folder are analyzed one after the other. */
export function registerWatch(program: Program): void {
  const command = program
    .command('watch')
    .summary('analyze films as they arrive in a folder')
    .description(
      'Waits for films in a folder (a phone that syncs, say) and analyzes each once it is wholly there.\nThe answer lies beside the film: row.mp4 gives row.tempofilm.txt. A film with an answer is not looked at again.\nA plan.yaml in the folder says what was planned; it names the exercise where it has only one.',
    )
    .argument('<folder>', 'the folder to watch');

  withFilmOptions(withSetOptions(command))
    .option('--once', 'analyze what is there now, then end')
    .option('--no-save', 'leave the history as it is')
    .option('--history <file>', 'the history file to keep the sets in')
    .option('--quiet', 'no progress, no notes')
    .addHelpText(
      'after',
      '\nExamples:\n  tempofilm watch ~/Films --exercise squat --tempo 3-1-1-0\n  tempofilm watch ~/Films --once',
    )
    .action(async (folder, options) => {
      const { watchFolder } = await import('../watch/watchFolder.js');
      process.exitCode = await watchFolder(folder, options);
    });
}
