import { execFile } from 'node:child_process';
import { createHash } from 'node:crypto';
import { mkdtemp, rm } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { promisify } from 'node:util';
import type { FilmFacts } from '../../../core/media/film.js';
import type { FrameOptions } from '../../../core/media/frames.js';
import { streamFrames } from '../../../core/media/frames.js';
import { type Ffmpeg, locateFfmpeg } from '../../../core/media/locateFfmpeg.js';

const run = promisify(execFile);

/** A folder of small films made by ffmpeg's own sources, and what the tests ask of them. */
export interface FilmFolder {
  readonly folder: string;
  readonly ffmpeg: Ffmpeg;
  /** Runs ffmpeg with these arguments and the name of a new film, whose path is given back. */
  make(name: string, ...ffmpegArguments: string[]): Promise<string>;
  path(name: string): string;
  remove(): Promise<void>;
}

export async function openFilmFolder(): Promise<FilmFolder> {
  const folder = await mkdtemp(join(tmpdir(), 'tempofilm-test-'));
  const ffmpeg = await locateFfmpeg();
  return {
    folder,
    ffmpeg,
    path: (name) => join(folder, name),
    make: async (name, ...ffmpegArguments) => {
      const path = join(folder, name);
      await run(ffmpeg.path, ['-v', 'error', '-nostdin', '-y', ...ffmpegArguments, path]);
      return path;
    },
    remove: () => rm(folder, { recursive: true, force: true }),
  };
}

/** Arguments for a moving test picture. */
export function testPicture(size = '160x90', rate = 30, seconds = 1): string[] {
  return ['-f', 'lavfi', '-i', `testsrc=s=${size}:r=${rate}:d=${seconds}`];
}

export const H264 = ['-c:v', 'libx264', '-preset', 'ultrafast', '-pix_fmt', 'yuv420p'];

export interface SeenFrame {
  readonly seconds: number;
  readonly sum: string;
  readonly pixels: Uint8Array;
}

/** Reads all frames, keeping copies. */
export async function readFrames(
  film: FilmFacts,
  ffmpeg: Ffmpeg,
  options: Partial<FrameOptions> = {},
): Promise<SeenFrame[]> {
  const seen: SeenFrame[] = [];
  for await (const frame of streamFrames(film, ffmpeg, { width: 80, height: 45, ...options })) {
    const pixels = Uint8Array.from(frame.pixels);
    seen.push({ seconds: frame.seconds, pixels, sum: createHash('md5').update(pixels).digest('hex') });
  }
  return seen;
}
