import { fork } from 'node:child_process';
import { once } from 'node:events';
import { createRequire } from 'node:module';
import { Worker } from 'node:worker_threads';
import type { Backend } from './accelerator.js';
import { builtProgram } from './builtProgram.js';
import type { AnswerMessage, JobMessage } from './workerMessages.js';

/** A thread or process that answers jobs. */
export interface InferenceHost {
  post(message: JobMessage): void;
  /** Ends it at once. */
  end(): Promise<void>;
}

export interface HostEvents {
  onAnswer(message: AnswerMessage): void;
  /** It ended, by itself or by `end`. */
  onEnd(cause: unknown): void;
}

export type StartHost = (events: HostEvents) => InferenceHost;

/**
 * Every job leaves a picture behind. Left to itself V8 lets tens of megabytes of them lie before it collects, the more the
 * longer it runs; with one megabyte for what is new the memory of a film of ten minutes is that of half a minute.
 */
const SOON_COLLECTED = ['--max-semi-space-size=1'];

/**
 * How the networks are run. On the processor: in processes where the native runtime is installed, since ending a thread
 * in the middle of its work would end the whole program, else in threads. WebGPU in processes too, since a graphics
 * driver may end the process it runs in and writes to standard error as it likes.
 *
 * @throws Failure 'installation' where the compiled program is missing.
 */
export function hostOf(backend: Backend): StartHost {
  if (backend === 'processor' && !isInstalled('onnxruntime-node')) {
    const program = builtProgram('worker.js');
    return (events) => startThread(program, events);
  }
  const program = builtProgram(backend === 'processor' ? 'workerProcess.js' : 'graphicsWorker.js');
  return (events) => startProcess(program, events);
}

function isInstalled(name: string): boolean {
  try {
    createRequire(import.meta.url).resolve(name);
    return true;
  } catch {
    return false;
  }
}

function startThread(program: string, { onAnswer, onEnd }: HostEvents): InferenceHost {
  const worker = new Worker(program);
  let cause: unknown = null;
  worker.on('message', onAnswer);
  worker.on('error', (error) => {
    cause = error;
  });
  worker.on('exit', (code) => onEnd(cause ?? new Error(`exit code ${code}`)));
  return {
    post: (message) => worker.postMessage(message),
    end: async () => void (await worker.terminate()),
  };
}

function startProcess(program: string, { onAnswer, onEnd }: HostEvents): InferenceHost {
  const child = fork(program, [], {
    execArgv: SOON_COLLECTED,
    serialization: 'advanced',
    stdio: ['ignore', 'ignore', 'ignore', 'ipc'],
  });
  let ended = false;
  const end = (cause: unknown) => {
    if (ended) return;
    ended = true;
    onEnd(cause);
  };
  child.on('message', (message) => onAnswer(message as AnswerMessage));
  child.on('error', end);
  child.on('exit', (code, signal) => end(new Error(`exit code ${code ?? signal}`)));
  return {
    // A message to a process that has just ended is answered by its 'exit'.
    post: (message) => void child.send(message, () => undefined),
    async end() {
      if (ended) return;
      const exited = once(child, 'exit');
      child.kill('SIGKILL');
      await exited;
    },
  };
}
