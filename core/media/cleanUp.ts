type Action = () => void;

const pending = new Set<Action>();
const SIGNALS = ['SIGINT', 'SIGTERM', 'SIGHUP'] as const;
let listening = false;

/**
 * Runs `action` when the process ends early: on `process.exit`, on an uncaught fault, and on SIGINT, SIGTERM or
 * SIGHUP. The action must be synchronous. The returned function takes it off the list once the ordinary path has
 * done the work.
 *
 * A program that has its own listener for a signal keeps control of how it ends; without one the signal ends the
 * process after the clean-up, as it would have done anyway.
 */
export function onEarlyExit(action: Action): () => void {
  pending.add(action);
  listen();
  return () => pending.delete(action);
}

function listen(): void {
  if (listening) return;
  listening = true;
  process.on('exit', runAll);
  for (const signal of SIGNALS) process.on(signal, onSignal);
}

function onSignal(signal: NodeJS.Signals): void {
  const someoneElseListens = process.listenerCount(signal) > 1;
  if (someoneElseListens) return;
  runAll();
  process.removeListener(signal, onSignal);
  process.kill(process.pid, signal);
}

function runAll(): void {
  for (const action of pending) {
    try {
      action();
    } catch {
      // The process is ending: one clean-up that fails must not keep the others from running.
    }
  }
  pending.clear();
}
