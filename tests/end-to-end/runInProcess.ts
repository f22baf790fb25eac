import { reportFault } from '../../cli/faults.js';
import { buildProgram } from '../../cli/program.js';
import type { Outcome } from './command.js';

export interface InProcessOptions {
  readonly home: string;
  readonly environment?: Readonly<Record<string, string>>;
  readonly folder?: string;
}

/**
 * Runs a command line in this process, from source, with what it prints caught: the same answer as `runCommand` without
 * the start of a process, which costs more than most commands do. One at a time. For anything about the process itself
 * (signals, pipes, threads, limits, commands side by side) take `runCommand`.
 */
export async function runInProcess(
  parameters: readonly string[],
  { home, environment = {}, folder = home }: InProcessOptions,
): Promise<Outcome> {
  const printed = { output: '', errors: '' };
  const restore = surround(
    { TEMPOFILM_HOME: home, NO_COLOR: '1', ...environment },
    folder,
    parameters,
    printed,
  );
  try {
    await (await buildProgram(process.argv[2])).parseAsync(process.argv);
  } catch (thrown) {
    const fault = reportFault(thrown, process.argv.includes('--debug'));
    process.stderr.write(fault.text);
    process.exitCode = fault.exitCode;
  } finally {
    restore();
  }
  const code = Number(process.exitCode ?? 0);
  process.exitCode = undefined;
  return { code, signal: null, ...printed };
}

/** Gives the process the surroundings of a fresh command, and back its own when the returned function is called. */
function surround(
  environment: Readonly<Record<string, string>>,
  folder: string,
  parameters: readonly string[],
  printed: { output: string; errors: string },
): () => void {
  const before = {
    environment: { ...process.env },
    folder: process.cwd(),
    argv: process.argv,
    write: { stdout: process.stdout.write, stderr: process.stderr.write },
  };
  Object.assign(process.env, environment);
  process.chdir(folder);
  process.argv = [process.execPath, 'tempofilm', ...parameters];
  process.exitCode = undefined;
  const into = (stream: keyof typeof printed) => (text: string | Uint8Array) => {
    printed[stream] += typeof text === 'string' ? text : Buffer.from(text).toString('utf8');
    return true;
  };
  process.stdout.write = into('output');
  process.stderr.write = into('errors');
  return () => {
    process.stdout.write = before.write.stdout;
    process.stderr.write = before.write.stderr;
    process.argv = before.argv;
    process.chdir(before.folder);
    for (const name of Object.keys(process.env)) if (!(name in before.environment)) delete process.env[name];
    Object.assign(process.env, before.environment);
  };
}
