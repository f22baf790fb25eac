import { execFile } from 'node:child_process';
import { createHash, randomUUID } from 'node:crypto';
import { existsSync } from 'node:fs';
import { mkdtemp, readFile, rm, writeFile } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { promisify } from 'node:util';
import type { FilmFacts } from '../../../core/media/film.js';
import type { FrameOptions } from '../../../core/media/frames.js';
import { streamFrames } from '../../../core/media/frames.js';
import { type Ffmpeg, locateFfmpeg } from '../../../core/media/locateFfmpeg.js';

const run = promisify(execFile);

/**
 * A stand-in for ffmpeg that notes its process id and then runs `script` (by default the real one).
 */
export async function standIn(films: FilmFolder, script = `exec "${films.ffmpeg.path}" "$@"`) {
  const path = join(films.folder, `stand-in-${randomUUID()}`);
  const pidFile = `${path}.pid`;
  await writeFile(
    path,
    `#!/bin/sh\necho $$ > "${pidFile}.new" && mv "${pidFile}.new" "${pidFile}"\n${script}\n`,
    { mode: 0o755 },
  );
  const processId = async () => {
    while (!existsSync(pidFile)) await new Promise((settle) => setTimeout(settle, 10));
    return Number(await readFile(pidFile, 'utf8'));
  };
  return { ffmpeg: { ...films.ffmpeg, path }, processId };
}

export function isRunning(processId: number): boolean {
  try {
    process.kill(processId, 0);
    return true;
  } catch {
    return false;
  }
}

/** A folder of small films made by ffmpeg's own sources, and what the tests ask of them. */
export interface FilmFolder {
  readonly folder: string;
  readonly ffmpeg: Ffmpeg;
  /** Runs ffmpeg with these arguments and the name of a new film (once a name), whose path is given back. */
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
      if (existsSync(path)) return path;
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
