import { Failure } from '../failure.js';

/** @throws Failure of kind `interrupted` once the signal has been given. */
export function stopIfInterrupted(signal: AbortSignal | undefined): void {
  if (signal?.aborted !== true) return;
  throw signal.reason instanceof Failure ? signal.reason : new Failure('interrupted', 'Interrupted.');
}
