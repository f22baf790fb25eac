import { Failure } from '../failure.js';
import { type FfmpegExit, type RunningFfmpeg, startFfmpeg } from './ffmpegProcess.js';
import type { FilmFacts, TimedFrame } from './film.js';
import { FrameTimeReader } from './frameTimes.js';
import { stopIfInterrupted } from './interruption.js';
import type { Ffmpeg } from './locateFfmpeg.js';
import { pictureFilters, type Rectangle } from './pictureFilters.js';
import { canMapTones } from './toneMapping.js';

export interface FrameOptions {
  /** Size of the pictures handed out, in pixels; the film (or region) is scaled to exactly this. */
  readonly width: number;
  readonly height: number;
  /** Only frames with `fromSeconds ≤ time < toSeconds`, in film time. */
  readonly fromSeconds?: number | undefined;
  readonly toSeconds?: number | undefined;
  /** Only this part of the picture, in pixels of the film as shown; rounded to whole pixels. */
  readonly region?: Rectangle | undefined;
  /**
   * For sparse passes: only the first frame of every stretch of this many seconds, the stretches counted from the first
   * picture that is stored, so that the same frames are chosen however much of the film's start is left out.
   */
  readonly oneEverySeconds?: number | undefined;
  /** One byte a pixel instead of red, green, blue. */
  readonly grayscale?: boolean | undefined;
  readonly signal?: AbortSignal | undefined;
  /** Told, in one line, of damage that was passed over. */
  readonly onWarning?: ((message: string) => void) | undefined;
  /** Ends ffmpeg when it has given nothing for this long while it was waited for. */
  readonly stallSeconds?: number | undefined;
}

/** How long ffmpeg may be silent while a frame is awaited before it is ended. */
export const STALL_SECONDS = 60;
/** Decoding restarts at a picture that needs no other; this much before the wanted time is always far enough for B-frames. */
const SEEK_MARGIN_SECONDS = 1;
/** Half a tick of the finest usual time base; keeps a frame exactly at a limit on the right side of it. */
const TIME_TOLERANCE_SECONDS = 1e-6;
/** Matroska rounds times to 1 ms: half a second may come out 1 ms short, and is meant all the same. */
const GRID_TOLERANCE_SECONDS = 0.002;

/**
 * Decodes a film and hands out its frames in order, each with its own presentation time. Times and pixels come from
 * one decode: ffmpeg prints the time of each frame as it writes it, and both are paired one to one. Every frame comes
 * once (no doubling to a fixed rate, no dropping), and times strictly increase.
 *
 * Frames are asked for one by one, and ffmpeg waits when nobody asks: memory does not grow with the film. ffmpeg is
 * ended when the loop ends in whatever way.
 *
 * @throws Failure of kind `film` where no frame can be decoded or ffmpeg gives nothing for `stallSeconds`;
 * of kind `interrupted` when `signal` aborts.
 */
export async function* streamFrames(
  film: FilmFacts,
  ffmpeg: Ffmpeg,
  options: FrameOptions,
): AsyncGenerator<TimedFrame, void, undefined> {
  stopIfInterrupted(options.signal);
  const times = new FrameTimeReader();
  const run = startFfmpeg(ffmpeg, {
    inputArguments: [...seekArguments(film, options.fromSeconds), '-copyts', '-noautorotate'],
    input: { file: film.file },
    outputArguments: [
      ...['-map', '0:V:0', '-an', '-sn', '-dn', '-nostats', '-loglevel', 'repeat+info'],
      '-filter:v',
      await filterGraph(film, ffmpeg, options),
      ...ffmpeg.passthroughArguments,
      ...['-f', 'rawvideo', '-pix_fmt', pixelFormatOf(options)],
    ],
    output: 'stream',
    onLine: (line) => times.read(line),
  });
  const stopOnAbort = () => void run.stop();
  options.signal?.addEventListener('abort', stopOnAbort, { once: true });
  try {
    yield* pairFrames(film, run, times, options);
  } finally {
    options.signal?.removeEventListener('abort', stopOnAbort);
    await run.stop();
  }
}

async function filterGraph(film: FilmFacts, ffmpeg: Ffmpeg, options: FrameOptions): Promise<string> {
  const mapsTones = film.highDynamicRange && (await canMapTones(ffmpeg));
  if (film.highDynamicRange && !mapsTones) {
    options.onWarning?.('This ffmpeg cannot map the film from high dynamic range; pictures may look flat.');
  }
  return [
    ...selectFilters(film, options),
    ...pictureFilters(film, { ...options, pixelFormat: pixelFormatOf(options), canMapTones: mapsTones }),
    'showinfo',
  ].join(',');
}

function pixelFormatOf(options: FrameOptions): 'gray' | 'rgb24' {
  return options.grayscale === true ? 'gray' : 'rgb24';
}

/** Leaves out unwanted frames inside ffmpeg, before they are scaled. */
function selectFilters(film: FilmFacts, options: FrameOptions): readonly string[] {
  const conditions: string[] = [];
  if (options.fromSeconds !== undefined && options.fromSeconds > 0) {
    const from = options.fromSeconds + (film.clockOffsetSeconds ?? 0) - TIME_TOLERANCE_SECONDS;
    conditions.push(`gte(t,${from.toFixed(6)})`);
  }
  if (options.oneEverySeconds !== undefined && options.oneEverySeconds > 0) {
    const origin = (film.clockOffsetSeconds ?? 0) + (film.firstStoredSeconds ?? 0) - GRID_TOLERANCE_SECONDS;
    const stretch = (time: string) =>
      `floor((${time}-(${origin.toFixed(6)}))/${options.oneEverySeconds!.toFixed(6)})`;
    conditions.push(`(isnan(prev_selected_t)+gt(${stretch('t')},${stretch('prev_selected_t')}))`);
  }
  return conditions.length === 0 ? [] : [`select='${conditions.join('*')}'`];
}

/**
 * Containers with an index are entered at the last complete picture before the wanted time; others are decoded from
 * the start. Either way `select` then decides by the frames' own times, so both give the same frames.
 */
function seekArguments(film: FilmFacts, fromSeconds: number | undefined): readonly string[] {
  const hasIndex = /\b(mov|mp4|matroska|webm)\b/.test(film.container ?? '');
  const target = (fromSeconds ?? 0) - SEEK_MARGIN_SECONDS;
  if (!hasIndex || target <= 0) return [];
  return ['-noaccurate_seek', '-seek_timestamp', '1', '-ss', target.toFixed(6)];
}

async function* pairFrames(
  film: FilmFacts,
  run: RunningFfmpeg,
  times: FrameTimeReader,
  options: FrameOptions,
): AsyncGenerator<TimedFrame, void, undefined> {
  const bytes = options.width * options.height * (options.grayscale === true ? 1 : 3);
  const pictures = picturesOf(run, Buffer.allocUnsafe(bytes), options);
  let last = Number.NEGATIVE_INFINITY;
  let count = 0;
  let outOfOrder = 0;
  for await (const pixels of pictures) {
    const printed = await timeOfNext(times, run);
    if (printed === undefined) break;
    const seconds =
      printed === null
        ? (Number.isFinite(last) ? last : 0) + 1 / (film.frameRate || 30)
        : printed - (film.clockOffsetSeconds ?? 0);
    if (options.toSeconds !== undefined && seconds >= options.toSeconds - TIME_TOLERANCE_SECONDS) return;
    if (seconds <= last) {
      outOfOrder += 1;
      continue;
    }
    last = seconds;
    count += 1;
    yield { seconds, width: options.width, height: options.height, pixels };
  }
  stopIfInterrupted(options.signal);
  if (outOfOrder > 0) options.onWarning?.(`${outOfOrder} frames with a time that goes back were left out.`);
  judgeEnd(film, await run.exit, count, last, options);
}

/** Cuts the stream of bytes into pictures; all are read into the same buffer. */
async function* picturesOf(
  run: RunningFfmpeg,
  picture: Buffer,
  options: FrameOptions,
): AsyncGenerator<Buffer, void, undefined> {
  let filled = 0;
  const chunks = (run.output as AsyncIterable<Buffer>)[Symbol.asyncIterator]();
  while (true) {
    const next = await withinTime(chunks.next(), options.stallSeconds ?? STALL_SECONDS);
    if (next === 'stalled') {
      throw new Failure(
        'film',
        `ffmpeg gave nothing for ${options.stallSeconds ?? STALL_SECONDS} s and was ended.`,
        'The film may be damaged or its disk too slow: copy it to this machine and try again.',
      );
    }
    if (next.done === true) return;
    let from = 0;
    while (from < next.value.length) {
      const taken = next.value.copy(picture, filled, from);
      from += taken;
      filled += taken;
      if (filled === picture.length) {
        yield picture;
        filled = 0;
      }
    }
  }
}

async function withinTime<Value>(promise: Promise<Value>, seconds: number): Promise<Value | 'stalled'> {
  let timer: NodeJS.Timeout | undefined;
  const stalled = new Promise<'stalled'>((settle) => {
    timer = setTimeout(() => settle('stalled'), seconds * 1000);
  });
  try {
    return await Promise.race([promise, stalled]);
  } finally {
    clearTimeout(timer);
  }
}

/** The line with a frame's time leaves ffmpeg before its pixels, but may reach us after them. */
async function timeOfNext(times: FrameTimeReader, run: RunningFfmpeg): Promise<number | null | undefined> {
  while (true) {
    const time = times.take();
    if (time !== undefined || run.hasExited()) return time;
    await new Promise((settle) => setTimeout(settle, 1));
  }
}

function judgeEnd(
  film: FilmFacts,
  exit: FfmpegExit,
  count: number,
  last: number,
  options: FrameOptions,
): void {
  if (exit.startError !== null) {
    throw new Failure('installation', 'ffmpeg does not start.', 'Run tempofilm doctor.', exit.startError);
  }
  if (exit.signal === 'SIGKILL' || exit.signal === 'SIGTERM') {
    throw new Failure(
      'film',
      `ffmpeg was ended from outside (${exit.signal}) while reading "${film.file}".`,
      'Try again.',
    );
  }
  const failed = exit.code !== 0;
  if (count === 0 && (failed || (options.fromSeconds ?? 0) === 0)) {
    throw new Failure(
      'film',
      `No picture of "${film.file}" can be read.`,
      'Check that it plays in a video player; a current ffmpeg reads more kinds of film.',
    );
  }
  const end = Math.min(film.durationSeconds, options.toSeconds ?? Number.POSITIVE_INFINITY);
  const missing = end - last - Math.max(0.5, 2 / (film.frameRate || 30), 2 * (options.oneEverySeconds ?? 0));
  if (count > 0 && (failed || missing > 0)) {
    options.onWarning?.(
      `The film is damaged or cut off: it says ${film.durationSeconds.toFixed(1)} s, its last readable picture is at ${last.toFixed(1)} s.`,
    );
  }
}
