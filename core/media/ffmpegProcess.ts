import type { ChildProcess } from 'node:child_process';
import { PassThrough, type Readable } from 'node:stream';
import createCommand from 'fluent-ffmpeg';
import { onEarlyExit } from './cleanUp.js';
import { FILM_LIMITS } from './filmLimits.js';
import type { Ffmpeg } from './locateFfmpeg.js';

/** One run of ffmpeg with one input and one output. */
export interface FfmpegRequest {
  /** Arguments before the input, without the input itself. */
  readonly inputArguments: readonly string[];
  /** A file on this machine, or a stream of bytes for ffmpeg's standard input. */
  readonly input: { readonly file: string } | { readonly stream: Readable };
  readonly outputArguments: readonly string[];
  /** A file on this machine, ffmpeg's standard output as a stream, or nothing at all. */
  readonly output: { readonly file: string } | 'stream' | 'none';
  /** Ended where it still runs after this many seconds. */
  readonly longestSeconds?: number;
  /** Called with each line of standard error, in order. */
  readonly onLine?: (line: string) => void;
}

export interface FfmpegExit {
  /** Null where a signal ended it or it never started. */
  readonly code: number | null;
  readonly signal: NodeJS.Signals | null;
  /** Whether it was ended because it ran longer than it may. */
  readonly outOfTime: boolean;
  /** Why it did not start, or null. */
  readonly startError: Error | null;
  /** What went wrong in the stream given as input, or null. */
  readonly inputError: Error | null;
  /** The last lines of standard error. */
  readonly lastLines: readonly string[];
}

/** The last line with words that ffmpeg printed on standard error, or that it printed none. */
export function lastWordsOf(exit: FfmpegExit): string {
  return exit.lastLines.findLast((line) => line.trim() !== '')?.trim() ?? 'no reason given';
}

export interface RunningFfmpeg {
  /** Standard output, where the request asked for it. */
  readonly output: Readable | null;
  /** Settles when the process has gone and all its lines were delivered. Never rejects. */
  readonly exit: Promise<FfmpegExit>;
  hasExited(): boolean;
  /** Ends the process at once and waits until it has gone. */
  stop(): Promise<FfmpegExit>;
}

const KEPT_LINES = 40;
/**
 * The containers that may be opened, in ffmpeg's words. Play lists and scripts (HLS, DASH, concat and the like) are
 * not among them: they make ffmpeg open further files. Nor are text and picture formats, which open almost anything.
 */
const FILM_FORMATS =
  'mov,mp4,m4a,3gp,3g2,mj2,matroska,webm,avi,gif,mpegts,mpeg,mpegvideo,m4v,h264,hevc,ogg,flv,asf,mxf,dv,ivf,nut,apng';
const PASSAGE_BYTES = 1_048_576;

/**
 * Every run of ffmpeg goes through here. Arguments travel as a list, never through a shell; file names get the
 * `file:` prefix, so that a name that begins with a dash or looks like an address is only ever a file; the protocols
 * are limited to files and pipes and the containers to films, so that a play list that poses as a film cannot open
 * anything else.
 *
 * fluent-ffmpeg composes the argument list, starts the process and splits its lines. It is archived, so it stays in
 * this one file. Its run() first asks ffmpeg for its formats and encoders; that costs two processes a run and its
 * reader of those lists fails on ffmpeg 7, so the step that asks is replaced by the composition of the arguments
 * alone. The outcome is read from the process itself: the library ends ffmpeg 20 ms after an output closes and calls
 * that a failure.
 */
export function startFfmpeg(ffmpeg: Ffmpeg, request: FfmpegRequest): RunningFfmpeg {
  const command = createCommand({ stdoutLines: KEPT_LINES }) as ComposableCommand;
  command.setFfmpegPath(ffmpeg.path);
  command._prepare = (callback) => callback(null, command._getArguments());

  const input = 'file' in request.input ? asFileAddress(request.input.file) : request.input.stream;
  command.input(input);
  addEach(command.inputOptions, command, [
    '-hide_banner',
    '-nostdin',
    '-protocol_whitelist',
    'file,pipe',
    '-max_alloc',
    String(FILM_LIMITS.allocationBytes),
    ...('file' in request.input
      ? ['-format_whitelist', FILM_FORMATS, '-max_pixels', String(FILM_LIMITS.picturePixels)]
      : []),
    ...request.inputArguments,
  ]);

  const output = request.output === 'stream' ? openPassage() : null;
  command.output(output ?? (typeof request.output === 'object' ? asFileAddress(request.output.file) : '-'));
  addEach(command.outputOptions, command, [
    ...request.outputArguments,
    ...(request.output === 'none' ? ['-f', 'null'] : []),
  ]);
  return launch(command, 'stream' in request.input ? request.input.stream : null, output, request);
}

/** Two private parts of the archived library (fixed at 2.1.3) that this adapter relies on. */
interface ComposableCommand extends createCommand.FfmpegCommand {
  _prepare: (callback: (error: Error | null, composed: string[]) => void) => void;
  _getArguments: () => string[];
  ffmpegProc?: ChildProcess;
}

function launch(
  command: ComposableCommand,
  input: Readable | null,
  output: PassThrough | null,
  { longestSeconds, onLine }: Pick<FfmpegRequest, 'longestSeconds' | 'onLine'>,
): RunningFfmpeg {
  let child: ChildProcess | undefined;
  let forget = () => {};
  let hasExited = false;
  let timer: NodeJS.Timeout | undefined;
  let outOfTime = false;

  const exit = new Promise<FfmpegExit>((settle) => {
    const finish = async (error: CommandError | null, text: string | null | undefined) => {
      const started = child?.pid !== undefined;
      if (started) await Promise.all([exitOf(child!), endOf(child!.stderr)]);
      forget();
      clearTimeout(timer);
      hasExited = true;
      input?.destroy();
      // The last pictures may still wait in the pipe for a slow reader: the output ends when they have been read.
      void endOf(started ? child!.stdout : null).then(() => output?.end());
      settle({
        code: child?.exitCode ?? null,
        signal: child?.signalCode ?? null,
        outOfTime,
        startError: started ? null : error,
        inputError: error?.inputStreamError ?? null,
        lastLines: text ? text.split('\n').slice(-KEPT_LINES) : [],
      });
    };
    command.on('stderr', (line: string) => onLine?.(line));
    command.on('start', () => {
      child = command.ffmpegProc;
      forget = onEarlyExit(() => child?.kill('SIGKILL'));
    });
    command.on('end', (_standardOutput: unknown, text: string | null) => void finish(null, text));
    command.on('error', (error: CommandError, _standardOutput: unknown, text?: string | null) => {
      child?.kill('SIGKILL');
      void finish(error, text);
    });
  });
  command.run();
  const stop = () => {
    child?.kill('SIGKILL');
    // What nobody will read any more must not hold the process's output open.
    output?.resume();
    return exit;
  };
  if (longestSeconds !== undefined) {
    timer = setTimeout(() => {
      outOfTime = true;
      void stop();
    }, longestSeconds * 1000);
  }
  return { output, exit, hasExited: () => hasExited, stop };
}

type CommandError = Error & { inputStreamError?: Error };

async function exitOf(child: ChildProcess): Promise<void> {
  if (child.exitCode !== null || child.signalCode !== null) return;
  await new Promise((settle) => child.once('exit', settle));
}

/** A process may be gone before what it wrote last has been read. */
async function endOf(stream: Readable | null): Promise<void> {
  if (stream === null || stream.readableEnded || stream.destroyed) return;
  await new Promise((settle) => stream.once('close', settle));
}

function openPassage(): PassThrough {
  return new PassThrough({ highWaterMark: PASSAGE_BYTES, autoDestroy: false, emitClose: false });
}

function asFileAddress(file: string): string {
  return `file:${file}`;
}

/** Given one by one, the library splits an option at a space; given together, it leaves each as it is. */
function addEach(
  add: (...options: string[]) => unknown,
  command: ComposableCommand,
  options: readonly string[],
): void {
  if (options.length > 0) add.call(command, ...options, ...(options.length === 1 ? [''] : []));
}
