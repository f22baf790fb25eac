import type { Program } from './registration.js';

/** `tempofilm cache`: see and clear the pose tracks that are kept. */
export function registerCache(program: Program): void {
  program
    .command('cache')
    .summary('see or clear the measurements kept from earlier runs')
    .description(
      'Shows how much is kept from earlier runs, so that the same film answers at once under another plan.\nClearing it loses time, never results.',
    )
    .option('--clear', 'drop everything that is kept')
    .addHelpText('after', '\nExamples:\n  tempofilm cache\n  tempofilm cache --clear')
    .action(async ({ clear }) => {
      const { cacheReport } = await import('../output/cacheReport.js');
      process.stdout.write(await cacheReport(clear === true));
    });
}
