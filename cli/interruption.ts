import { Failure } from '../core/failure.js';
import { EXIT } from './exitCode.js';
import { reportFault } from './faults.js';

/** How long running work may take to put its things away after the first Ctrl-C. */
const GRACE_MILLISECONDS = 4000;

const controller = new AbortController();

/** Aborts when the user or the system asks the program to stop. Pass it to everything that runs long. */
export const interruption: AbortSignal = controller.signal;

/**
 * Turns Ctrl-C and a polite end by the system into an abort of `interruption`, so that children are ended and
 * half-written files removed. A second request, or work that does not stop in time, ends the process at once.
 */
export function listenForInterruption(): void {
  const stop = () => {
    if (controller.signal.aborted) process.exit(EXIT.interrupted);
    process.exitCode = EXIT.interrupted;
    controller.abort(new Failure('interrupted', 'Interrupted; nothing was written.'));
    setTimeout(endWithWord, GRACE_MILLISECONDS).unref();
  };
  process.on('SIGINT', stop);
  process.on('SIGTERM', stop);
}

/** Clean-ups run on the way out, as they do after an ordinary end. */
function endWithWord(): void {
  process.stderr.write(reportFault(controller.signal.reason, false).text);
  process.exit(EXIT.interrupted);
}
