import { fork } from 'node:child_process';
import { builtProgram } from './builtProgram.js';

/** What this machine has for running the networks on a graphics adapter. */
export type Graphics =
  | {
      readonly kind: 'adapter';
      readonly name: string;
      /** Whether the adapter is a program on the processor, as CI machines have. */
      readonly software: boolean;
    }
  | { readonly kind: 'none'; readonly reason: string };

/** A driver that hangs must not hang the program. */
const SEARCH_TIMEOUT_MILLISECONDS = 20_000;

let found: Promise<Graphics> | null = null;

/**
 * Looks for a graphics adapter, once.
 *
 * It looks in a process of its own: drivers write to standard error as they like, and a broken one ends the process
 * that loads it.
 */
export function findGraphics(): Promise<Graphics> {
  found ??= searchInProcess();
  return found;
}

function searchInProcess(): Promise<Graphics> {
  return new Promise((resolve) => {
    const none = (reason: string) => resolve({ kind: 'none', reason });
    const child = fork(builtProgram('graphicsSearch.js'), [], {
      execArgv: [],
      stdio: ['ignore', 'ignore', 'ignore', 'ipc'],
    });
    const timer = setTimeout(() => {
      none('The graphics driver does not answer.');
      child.kill('SIGKILL');
    }, SEARCH_TIMEOUT_MILLISECONDS);
    child.on('message', (answer) => resolve(answer as Graphics));
    child.on('error', () => none('The search for a graphics adapter could not be started.'));
    child.on('exit', () => {
      clearTimeout(timer);
      none('The graphics driver ended the process that loaded it.');
    });
  });
}
