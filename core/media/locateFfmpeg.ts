import { execFile } from 'node:child_process';
import { accessSync, constants, statSync } from 'node:fs';
import { delimiter, join, resolve } from 'node:path';
import { Failure } from '../failure.js';
import { importOptional } from '../optionalPackage.js';

/** A working ffmpeg and how to speak to it. */
export interface Ffmpeg {
  readonly path: string;
  /** As the program prints it, for example `5.1.9-0+deb12u1`. */
  readonly version: string;
  readonly source: 'option' | 'environment' | 'ffmpeg-static' | 'path' | 'bundled-2018';
  /** Output arguments that keep every frame once with its own time: `-fps_mode` came with ffmpeg 5.1. */
  readonly passthroughArguments: readonly string[];
  /** One line for the user, or null. */
  readonly warning: string | null;
}

const VERSION_TIMEOUT_MILLISECONDS = 20_000;

/**
 * Finds an ffmpeg that runs, in this order: the path given, FFMPEG_PATH, the ffmpeg-static package, PATH, and as a
 * last resort the 2018 build of @ffmpeg-installer/ffmpeg.
 *
 * A path that the user chose (the first two) is never silently replaced by another one.
 *
 * @throws Failure of kind `installation` when nothing was found or the chosen file does not run.
 */
export async function locateFfmpeg(options: { explicitPath?: string | undefined } = {}): Promise<Ffmpeg> {
  if (options.explicitPath !== undefined) return chosen(options.explicitPath, 'option', '--ffmpeg');
  const fromEnvironment = process.env['FFMPEG_PATH'];
  if (fromEnvironment) return chosen(fromEnvironment, 'environment', 'FFMPEG_PATH');

  const candidates: readonly [Ffmpeg['source'], () => Promise<string | null>][] = [
    ['ffmpeg-static', ffmpegStaticPath],
    ['path', async () => searchPath()],
    ['bundled-2018', bundledPath],
  ];
  for (const [source, find] of candidates) {
    const path = await find();
    if (path === null) continue;
    const found = await describe(path, source);
    if (found !== null) return found;
  }
  throw new Failure(
    'installation',
    'No ffmpeg was found: looked at --ffmpeg, FFMPEG_PATH, the package ffmpeg-static, PATH and the package @ffmpeg-installer/ffmpeg.',
    'Install ffmpeg 4 or newer (for example "apt install ffmpeg" or "brew install ffmpeg"), or name one with --ffmpeg <path>.',
  );
}

async function chosen(path: string, source: Ffmpeg['source'], name: string): Promise<Ffmpeg> {
  const found = isExecutableFile(path) ? await describe(resolve(path), source) : await describe(path, source);
  if (found !== null) return found;
  throw new Failure(
    'installation',
    `${name} names "${path}", which is no ffmpeg that runs here.`,
    `Give the path of an ffmpeg program, or leave ${name} out to use the one on PATH.`,
  );
}

/** Runs `ffmpeg -version`; null where the file does not run or is something else. */
async function describe(path: string, source: Ffmpeg['source']): Promise<Ffmpeg | null> {
  const text = await printedBy(path);
  const description = text === null ? null : describeVersion(text);
  if (description === null) return null;
  const warning =
    source === 'bundled-2018'
      ? 'Using the ffmpeg build of 2018 from @ffmpeg-installer: it has had no security fixes since; a current ffmpeg is safer.'
      : null;
  return { path, source, warning, ...description };
}

function printedBy(path: string): Promise<string | null> {
  return new Promise((settle) => {
    execFile(
      path,
      ['-hide_banner', '-version'],
      { timeout: VERSION_TIMEOUT_MILLISECONDS, windowsHide: true },
      (error, output) => settle(error === null ? output : null),
    );
  });
}

/**
 * Reads the text of `ffmpeg -version`. Builds from a repository carry no release number, so the choice between
 * `-fps_mode` and `-vsync` goes by the version of libavutil: 57.28 was released with ffmpeg 5.1
 * (ffmpeg.org/download.html, release table).
 */
export function describeVersion(text: string): Pick<Ffmpeg, 'version' | 'passthroughArguments'> | null {
  const version = /^ffmpeg version (\S+)/m.exec(text)?.[1];
  if (version === undefined) return null;
  const library = /^libavutil\s+(\d+)\.\s*(\d+)\./m.exec(text);
  const major = Number(library?.[1] ?? 0);
  const minor = Number(library?.[2] ?? 0);
  const hasFrameRateMode = major > 57 || (major === 57 && minor >= 28);
  return { version, passthroughArguments: [hasFrameRateMode ? '-fps_mode' : '-vsync', 'passthrough'] };
}

function searchPath(): string | null {
  const names = process.platform === 'win32' ? ['ffmpeg.exe'] : ['ffmpeg'];
  for (const folder of (process.env['PATH'] ?? '').split(delimiter)) {
    if (folder === '') continue;
    for (const name of names) {
      const path = join(folder, name);
      if (isExecutableFile(path)) return path;
    }
  }
  return null;
}

async function ffmpegStaticPath(): Promise<string | null> {
  const loaded = await importOptional<{ default: unknown }>('ffmpeg-static');
  const path = loaded?.default;
  // With install scripts off the package names a file that was never downloaded.
  return typeof path === 'string' && isExecutableFile(path) ? path : null;
}

async function bundledPath(): Promise<string | null> {
  const loaded = await importOptional<{ default?: { path?: unknown } }>('@ffmpeg-installer/ffmpeg');
  const path = loaded?.default?.path;
  return typeof path === 'string' && isExecutableFile(path) ? path : null;
}

function isExecutableFile(path: string): boolean {
  try {
    accessSync(path, constants.X_OK);
    return statSync(path).isFile();
  } catch {
    return false;
  }
}
