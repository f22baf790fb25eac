import { type ChildProcess, spawn } from 'node:child_process';
import { dirname, join, resolve } from 'node:path';
import { fileURLToPath } from 'node:url';

export const PROJECT = resolve(dirname(fileURLToPath(import.meta.url)), '../..');
/** The built program, as `bin` of package.json names it. */
export const PROGRAM = join(PROJECT, 'dist/cli/main.js');

export interface Outcome {
  readonly code: number | null;
  readonly signal: NodeJS.Signals | null;
  readonly output: string;
  readonly errors: string;
}

export interface RunOptions {
  readonly home: string;
  readonly environment?: Readonly<Record<string, string>>;
  readonly program?: string;
  /** Runs this with the parameters alone, in place of the program. */
  readonly interpreter?: string;
  readonly folder?: string;
  readonly whenStarted?: (child: ChildProcess) => void;
}

/** Runs the command as a user would, with its files kept under `home`. */
export function runCommand(parameters: readonly string[], options: RunOptions): Promise<Outcome> {
  const [command, ...given] =
    options.interpreter === undefined
      ? [process.execPath, options.program ?? PROGRAM, ...parameters]
      : [options.interpreter, ...parameters];
  const child = spawn(command, given, {
    cwd: options.folder ?? options.home,
    env: { ...process.env, TEMPOFILM_HOME: options.home, NO_COLOR: '1', ...options.environment },
    stdio: ['ignore', 'pipe', 'pipe'],
  });
  let output = '';
  let errors = '';
  child.stdout.setEncoding('utf8').on('data', (text: string) => {
    output += text;
  });
  child.stderr.setEncoding('utf8').on('data', (text: string) => {
    errors += text;
  });
  options.whenStarted?.(child);
  return new Promise((settle, fail) => {
    child.on('error', fail);
    child.on('close', (code, signal) => settle({ code, signal, output, errors }));
  });
}
