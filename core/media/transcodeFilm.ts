import { Failure } from '../failure.js';
import { type RunningFfmpeg, startFfmpeg } from './ffmpegProcess.js';
import type { FilmFacts } from './film.js';
import { readFilmFacts } from './filmFacts.js';
import { STALL_SECONDS } from './frames.js';
import { stopIfInterrupted } from './interruption.js';
import type { Ffmpeg } from './locateFfmpeg.js';
import { pictureFilters } from './pictureFilters.js';
import { watchProgress } from './progressWatch.js';
import { canMapTones } from './toneMapping.js';
import { produceAside } from './writeAside.js';
import { throwUnlessWritten } from './writeFilm.js';

export interface TranscodeOptions {
  /** A filter graph in ffmpeg's language, applied to the picture as a player shows it; null for none. */
  readonly videoFilter: string | null;
  /** Keep the sound. */
  readonly sound: boolean;
  /** Size of the result in pixels, even numbers; the film's own as shown by default. The filter sees this size. */
  readonly size?: { readonly width: number; readonly height: number };
  readonly constantRateFactor?: number;
  readonly preset?: string;
  readonly fromSeconds?: number;
  readonly toSeconds?: number;
  readonly force?: boolean;
  readonly signal?: AbortSignal;
  /** Called now and then with the film time reached, seconds. */
  readonly onProgress?: (seconds: number) => void;
}

/**
 * Writes a copy of a film with a filter drawn over it, as an H.264 MP4 file with every frame at its own time. The
 * film appears under its name only when it is whole.
 *
 * @throws Failure as {@link writeFilm}; of kind `film` where ffmpeg makes no progress for {@link STALL_SECONDS}.
 */
export async function transcodeFilm(
  input: string | FilmFacts,
  output: string,
  ffmpeg: Ffmpeg,
  options: TranscodeOptions,
): Promise<void> {
  stopIfInterrupted(options.signal);
  const film = typeof input === 'string' ? await readFilmFacts(input, ffmpeg) : input;
  const encoding = await encodingArguments(film, ffmpeg, options);
  await produceAside(output, { force: options.force === true }, async (temporaryFile) => {
    let run: RunningFfmpeg | undefined;
    const watch = watchProgress(STALL_SECONDS, () => void run?.stop());
    run = startFfmpeg(ffmpeg, {
      inputArguments: ['-copyts', '-noautorotate'],
      input: { file: film.file },
      outputArguments: [...encoding, '-f', 'mp4'],
      output: { file: temporaryFile },
      onLine: (line) => {
        const seconds = watch.read(line);
        if (seconds !== null) options.onProgress?.(seconds);
      },
    });
    const stopOnAbort = () => void run?.stop();
    options.signal?.addEventListener('abort', stopOnAbort, { once: true });
    try {
      const exit = await run.exit;
      stopIfInterrupted(options.signal);
      if (watch.hasStalled()) {
        throw new Failure(
          'film',
          `ffmpeg made no progress for ${STALL_SECONDS} s and was ended.`,
          'Copy the film to this machine and try again.',
        );
      }
      throwUnlessWritten(exit);
    } finally {
      watch.end();
      options.signal?.removeEventListener('abort', stopOnAbort);
      await run.stop();
    }
  });
}

async function encodingArguments(
  film: FilmFacts,
  ffmpeg: Ffmpeg,
  options: TranscodeOptions,
): Promise<readonly string[]> {
  const size = options.size ?? { width: even(film.width), height: even(film.height) };
  const filters = [
    ...pictureFilters(film, {
      ...size,
      pixelFormat: 'yuv420p',
      canMapTones: film.highDynamicRange && (await canMapTones(ffmpeg)),
    }),
    ...(options.videoFilter === null ? [] : [options.videoFilter]),
  ];
  return [
    ...['-map', '0:V:0', ...(options.sound ? ['-map', '0:a:0?', '-c:a', 'aac', '-b:a', '128k'] : ['-an'])],
    ...['-sn', '-dn', '-map_metadata', '-1', '-nostats', '-progress', 'pipe:2'],
    ...(options.fromSeconds === undefined ? [] : ['-ss', options.fromSeconds.toFixed(6)]),
    ...(options.toSeconds === undefined ? [] : ['-to', options.toSeconds.toFixed(6)]),
    ...['-filter:v', filters.join(','), ...ffmpeg.passthroughArguments],
    ...[
      '-c:v',
      'libx264',
      '-crf',
      String(options.constantRateFactor ?? 22),
      '-preset',
      options.preset ?? 'veryfast',
    ],
    ...['-pix_fmt', 'yuv420p', '-movflags', '+faststart'],
  ];
}

function even(pixels: number): number {
  return Math.max(2, pixels - (pixels % 2));
}
