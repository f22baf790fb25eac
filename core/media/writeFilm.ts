import { Readable } from 'node:stream';
import { Failure } from '../failure.js';
import { type FfmpegExit, lastWordsOf, startFfmpeg } from './ffmpegProcess.js';
import { stopIfInterrupted } from './interruption.js';
import type { Ffmpeg } from './locateFfmpeg.js';
import { retimeFilm } from './retimeFilm.js';
import { withTemporaryFolder } from './temporaryFolder.js';
import { produceAside } from './writeAside.js';

export interface PictureToWrite {
  /** Presentation time in seconds; used where the film is of variable rate. */
  readonly seconds: number;
  /** Red, green, blue, one byte each, row by row from the top left. */
  readonly pixels: Uint8Array;
}

export interface FilmToWrite {
  /** Size in pixels, even numbers. */
  readonly width: number;
  readonly height: number;
  readonly frames: AsyncIterable<PictureToWrite>;
  /** Frames a second; for a film of variable rate only the encoder's guide. */
  readonly frameRate: number;
  /** Keep each picture's own time instead of spacing them evenly. Times must start at 0 or later and increase. */
  readonly variable?: boolean;
  /** H.264 constant rate factor, 0 (lossless) to 51; 20 by default. */
  readonly constantRateFactor?: number;
  readonly preset?: string;
  readonly pixelFormat?: string;
  /** Tags of the file, for example `{ title: '…', 'com.android.capture.fps': '240' }`. */
  readonly metadata?: Readonly<Record<string, string>>;
  readonly force?: boolean;
  readonly signal?: AbortSignal;
}

/** By itself x264 takes half as many threads again as there are cores, and with each number makes another film. */
const ENCODER_THREADS = '3';

/**
 * Writes pictures as an H.264 MP4 film. The film appears under its name only when it is whole. The
 * same pictures make the same film on any machine that has the same ffmpeg.
 *
 * @throws Failure of kind `usage` where the file exists or can't be written; `interrupted` on abort; `installation`
 * where this ffmpeg can't encode H.264.
 */
export async function writeFilm(file: string, ffmpeg: Ffmpeg, film: FilmToWrite): Promise<void> {
  await produceAside(file, { force: film.force === true }, async (temporaryFile) => {
    if (film.variable !== true) {
      await encode(temporaryFile, ffmpeg, film, () => undefined);
      return;
    }
    await withTemporaryFolder(async (folder) => {
      const even = `${folder}/even.mp4`;
      const timed = `${folder}/timed.mp4`;
      const times: number[] = [];
      await encode(even, ffmpeg, film, (seconds) => times.push(seconds));
      await retimeFilm(even, timed, times, film.frameRate);
      await copyWithTags(timed, temporaryFile, ffmpeg, film.metadata ?? {});
    });
  });
}

async function encode(
  file: string,
  ffmpeg: Ffmpeg,
  film: FilmToWrite,
  onPicture: (seconds: number) => void,
): Promise<void> {
  const run = startFfmpeg(ffmpeg, {
    inputArguments: [
      ...['-f', 'rawvideo', '-pix_fmt', 'rgb24', '-s', `${film.width}x${film.height}`],
      ...['-framerate', String(film.frameRate)],
    ],
    input: { stream: Readable.from(copies(film, onPicture), { objectMode: false, highWaterMark: 1 }) },
    outputArguments: [
      // Without B-frames a film's packets stand in the order of its pictures, which retiming relies on.
      ...['-c:v', 'libx264', '-bf', film.variable === true ? '0' : '2'],
      ...['-crf', String(film.constantRateFactor ?? 20), '-preset', film.preset ?? 'veryfast'],
      ...['-threads', ENCODER_THREADS],
      ...['-pix_fmt', film.pixelFormat ?? 'yuv420p', ...tagArguments(film.metadata ?? {})],
      ...['-f', 'mp4'],
    ],
    output: { file },
  });
  const stopOnAbort = () => void run.stop();
  film.signal?.addEventListener('abort', stopOnAbort, { once: true });
  try {
    const exit = await run.exit;
    stopIfInterrupted(film.signal);
    throwUnlessWritten(exit);
  } finally {
    film.signal?.removeEventListener('abort', stopOnAbort);
    await run.stop();
  }
}

async function* copies(film: FilmToWrite, onPicture: (seconds: number) => void): AsyncGenerator<Buffer> {
  const bytes = film.width * film.height * 3;
  for await (const picture of film.frames) {
    if (picture.pixels.length !== bytes) {
      throw new Error(`A picture of ${picture.pixels.length} bytes, expected ${bytes}.`);
    }
    onPicture(picture.seconds);
    // The pipe holds on to what it was given; the maker of the pictures may draw the next one over it.
    yield Buffer.from(picture.pixels);
  }
}

async function copyWithTags(
  from: string,
  to: string,
  ffmpeg: Ffmpeg,
  metadata: Readonly<Record<string, string>>,
): Promise<void> {
  const run = startFfmpeg(ffmpeg, {
    inputArguments: [],
    input: { file: from },
    outputArguments: ['-c', 'copy', ...tagArguments(metadata), '-f', 'mp4'],
    output: { file: to },
  });
  throwUnlessWritten(await run.exit);
}

function tagArguments(metadata: Readonly<Record<string, string>>): string[] {
  return [
    ...Object.entries(metadata).flatMap(([key, value]) => ['-metadata', `${key}=${value}`]),
    // Without this flag the MP4 writer keeps only the tags it knows by name.
    ...['-movflags', '+use_metadata_tags+faststart'],
  ];
}

/** @throws Failure, or a plain Error for a fault of the caller's pictures. */
export function throwUnlessWritten(exit: FfmpegExit): void {
  if (exit.startError !== null) throw exit.startError;
  if (exit.inputError !== null) throw exit.inputError;
  if (exit.code === 0) return;
  const text = exit.lastLines.join('\n');
  if (/No space left on device/.test(text)) {
    throw new Failure(
      'usage',
      'The film could not be written: the disk is full.',
      'Free some room and try again.',
    );
  }
  if (/Unknown encoder|Encoder .* not found/.test(text)) {
    throw new Failure(
      'installation',
      'This ffmpeg cannot encode H.264 films.',
      'Install an ffmpeg with libx264.',
    );
  }
  const reason = exit.signal === null ? `code ${exit.code}` : `signal ${exit.signal}`;
  throw new Failure(
    'usage',
    `The film could not be written: ffmpeg ended with ${reason} (${lastWordsOf(exit)}).`,
  );
}
