import type { Program } from './registration.js';

/** `tempofilm doctor`: is everything in place on this machine? */
export function registerDoctor(program: Program): void {
  program
    .command('doctor')
    .summary('check that everything needed is in place')
    .description('Checks Node, ffmpeg, the pose model and the folders, and says how to mend what is missing.')
    .option('--ffmpeg <path>', 'the ffmpeg program to check')
    .addHelpText('after', EXAMPLES)
    .action(async (options) => {
      const { examineInstallation } = await import('../doctor/examineInstallation.js');
      process.exitCode = await examineInstallation(options.ffmpeg);
    });
}

const EXAMPLES = `
Examples:
  tempofilm doctor
  tempofilm doctor --ffmpeg /opt/ffmpeg/bin/ffmpeg`;
