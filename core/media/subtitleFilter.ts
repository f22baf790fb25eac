import { writeFile } from 'node:fs/promises';
import { join } from 'node:path';
import { Readable } from 'node:stream';
import { Failure } from '../failure.js';
import { lastWordsOf, startFfmpeg } from './ffmpegProcess.js';
import type { Ffmpeg } from './locateFfmpeg.js';
import { withTemporaryFolder } from './temporaryFolder.js';

/**
 * The filter that draws a subtitle script (ASS) over a picture. The name is quoted for both of ffmpeg's
 * levels: that of a filter's options and that of the filter graph.
 */
export function subtitleFilter(file: string): string {
  const option = file.replaceAll('\\', '/').replace(/[\\':]/g, (character) => `\\${character}`);
  return `ass=filename=${option.replace(/[\\'[\],;]/g, (character) => `\\${character}`)}`;
}

const PROBE_SIDE = 64;
/** How long drawing words on one picture may take: long enough for a font cache that is made for the first time. */
export const LONGEST_DRAWING_SECONDS = 60;
const PROBE_SCRIPT = `[Script Info]
ScriptType: v4.00+
PlayResX: ${PROBE_SIDE}
PlayResY: ${PROBE_SIDE}

[V4+ Styles]
Format: Name, Fontname, Fontsize, PrimaryColour, SecondaryColour, OutlineColour, BackColour, Bold, Italic, Underline, StrikeOut, ScaleX, ScaleY, Spacing, Angle, BorderStyle, Outline, Shadow, Alignment, MarginL, MarginR, MarginV, Encoding
Style: Text,sans-serif,48,&H00FFFFFF,&H00FFFFFF,&H00000000,&H00000000,0,0,0,0,100,100,0,0,1,0,0,5,0,0,0,1

[Events]
Format: Layer, Start, End, Style, Name, MarginL, MarginR, MarginV, Effect, Text
Dialogue: 0,0:00:00.00,0:00:05.00,Text,,0,0,0,,8
`;

/**
 * Makes sure that this ffmpeg can draw words: it draws one on a black picture and looks. That needs libass
 * in ffmpeg and a font on the machine, and either may be missing without ffmpeg saying so.
 *
 * @throws Failure of kind `installation`.
 */
export async function requireDrawnText(ffmpeg: Ffmpeg): Promise<void> {
  await withTemporaryFolder(async (folder) => {
    const script = join(folder, 'probe.ass');
    await writeFile(script, PROBE_SCRIPT);
    const size = `${PROBE_SIDE}x${PROBE_SIDE}`;
    const raw = ['-f', 'rawvideo', '-pix_fmt', 'gray'];
    const run = startFfmpeg(ffmpeg, {
      inputArguments: [...raw, '-s', size, '-framerate', '1'],
      input: { stream: Readable.from([Buffer.alloc(PROBE_SIDE * PROBE_SIDE)]) },
      outputArguments: ['-vf', `format=yuv420p,${subtitleFilter(script)},format=gray`, ...raw],
      output: 'stream',
      longestSeconds: LONGEST_DRAWING_SECONDS,
    });
    let brightest = 0;
    for await (const chunk of run.output as AsyncIterable<Buffer>) {
      for (const value of chunk) brightest = Math.max(brightest, value);
    }
    const exit = await run.exit;
    if (exit.code !== 0) {
      const reason = exit.outOfTime ? `it took longer than ${LONGEST_DRAWING_SECONDS} s` : lastWordsOf(exit);
      const unknown = exit.lastLines.some((line) => /No such filter/.test(line));
      throw new Failure(
        'installation',
        unknown
          ? `This ffmpeg (${ffmpeg.path}) was built without libass, which draws the words.`
          : `This ffmpeg (${ffmpeg.path}) could not draw words: ${reason}.`,
        'Install an ffmpeg with libass (the usual packages have it), or name one with --ffmpeg <path>.',
      );
    }
    if (brightest < 128) {
      throw new Failure(
        'installation',
        'No font was found on this machine, so no words can be drawn.',
        'Install a font, for example the package fonts-dejavu-core.',
      );
    }
  });
}
