#!/usr/bin/env node
import { EXIT } from './exitCode.js';
import { reportFault } from './faults.js';
import { interruption, listenForInterruption } from './interruption.js';
import { buildProgram } from './program.js';

listenForInterruption();
endQuietlyWhenTheReaderLeaves();

try {
  await (await buildProgram(process.argv[2])).parseAsync(process.argv);
  if (interruption.aborted) process.exitCode = EXIT.interrupted;
} catch (thrown) {
  const fault = reportFault(
    interruption.aborted ? interruption.reason : thrown,
    process.argv.includes('--debug'),
  );
  process.stderr.write(fault.text);
  process.exitCode = fault.exitCode;
}

/** `tempofilm … | head` closes the pipe early, which is no fault of anyone. */
function endQuietlyWhenTheReaderLeaves(): void {
  process.stdout.on('error', (error: NodeJS.ErrnoException) => {
    if (error.code === 'EPIPE') process.exit(EXIT.answered);
    throw error;
  });
}
