import { writeFile } from 'node:fs/promises';
import { join } from 'node:path';
import { Readable } from 'node:stream';
import { Failure } from '../../core/failure.js';
import { extractFrame } from '../../core/media/extractFrame.js';
import { lastWordsOf, startFfmpeg } from '../../core/media/ffmpegProcess.js';
import type { FilmFacts } from '../../core/media/film.js';
import type { Ffmpeg } from '../../core/media/locateFfmpeg.js';
import { LONGEST_DRAWING_SECONDS, subtitleFilter } from '../../core/media/subtitleFilter.js';
import { withTemporaryFolder } from '../../core/media/temporaryFolder.js';
import { produceAside } from '../../core/media/writeAside.js';
import { EXIT, type ExitCode } from '../exitCode.js';
import { interruption } from '../interruption.js';
import { type Sheet, sheetLayout } from '../views/positions/sheetLayout.js';
import { SHEET_COLOUR, sheetScript, TILE_COLOUR } from '../views/positions/sheetScript.js';
import { analyzeToDraw, type DrawOptions } from './analyzeToDraw.js';

export type PositionOptions = DrawOptions;

/**
 * Writes one picture with both ends and the middle of every rep.
 *
 * @throws Failure for a wrong command line, an unreadable film, an ffmpeg that can't draw, and an interruption.
 */
export async function writePositionSheet(file: string, options: PositionOptions): Promise<ExitCode> {
  const analyzed = await analyzeToDraw(file, options, 'picture');
  if (analyzed === null) return EXIT.cannotAnswer;
  const { film, track, analysis, ffmpeg, words } = analyzed;
  const { report } = analysis;
  const force = options.force === true;
  const factor = film.slowMotionFactor;
  const sheet = sheetLayout(analysis, track, factor);
  const pixels = filled(sheet);
  if (options.figureOnly !== true) await placeFrames(pixels, sheet, film, ffmpeg, factor);
  const script = sheetScript(report, sheet, track, words, factor);
  await writePicture(options.output, pixels, sheet, script, ffmpeg, force);
  if (options.quiet !== true) process.stderr.write(`${options.output} is ready.\n`);
  return EXIT.answered;
}

/** The sheet with its tiles still empty: red, green, blue, one byte each. */
function filled(sheet: Sheet): Buffer {
  const pixels = Buffer.alloc(sheet.width * sheet.height * 3, Buffer.from(SHEET_COLOUR));
  const row = Buffer.alloc(sheet.tileWidth * 3, Buffer.from(TILE_COLOUR));
  for (const { left, top } of sheet.reps.flatMap((rep) => rep.tiles)) {
    for (let line = 0; line < sheet.tileHeight; line++) {
      row.copy(pixels, ((top + line) * sheet.width + left) * 3);
    }
  }
  return pixels;
}

async function placeFrames(
  pixels: Buffer,
  sheet: Sheet,
  film: FilmFacts,
  ffmpeg: Ffmpeg,
  factor: number,
): Promise<void> {
  for (const { position, left, top } of sheet.reps.flatMap((rep) => rep.tiles)) {
    const frame = await extractFrame(film, ffmpeg, position.seconds * factor, {
      width: sheet.tileWidth,
      height: sheet.tileHeight,
      region: sheet.region,
      signal: interruption,
    });
    for (let line = 0; line < frame.height; line++) {
      const row = frame.pixels.subarray(line * frame.width * 3, (line + 1) * frame.width * 3);
      pixels.set(row, ((top + line) * sheet.width + left) * 3);
    }
  }
}

async function writePicture(
  output: string,
  pixels: Buffer,
  sheet: Sheet,
  script: string,
  ffmpeg: Ffmpeg,
  force: boolean,
): Promise<void> {
  await withTemporaryFolder(async (folder) => {
    const scriptFile = join(folder, 'labels.ass');
    await writeFile(scriptFile, script);
    await produceAside(output, { force }, async (temporaryFile) => {
      const size = `${sheet.width}x${sheet.height}`;
      const run = startFfmpeg(ffmpeg, {
        inputArguments: ['-f', 'rawvideo', '-pix_fmt', 'rgb24', '-s', size, '-framerate', '1'],
        input: { stream: Readable.from([pixels]) },
        outputArguments: [
          ...['-vf', `${subtitleFilter(scriptFile)},format=rgb24`],
          ...['-frames:v', '1', '-c:v', 'png', '-f', 'image2', '-update', '1'],
        ],
        output: { file: temporaryFile },
        longestSeconds: LONGEST_DRAWING_SECONDS,
      });
      const exit = await run.exit;
      if (exit.startError !== null) throw exit.startError;
      if (exit.code !== 0) {
        throw new Failure(
          'usage',
          `"${output}" could not be written: ${exit.outOfTime ? `ffmpeg took longer than ${LONGEST_DRAWING_SECONDS} s` : lastWordsOf(exit)}.`,
        );
      }
    });
  });
}
