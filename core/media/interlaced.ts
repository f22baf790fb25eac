import { startFfmpeg } from './ffmpegProcess.js';
import type { Ffmpeg } from './locateFfmpeg.js';

/** Half a second of film: enough to see fields where a camera writes them, quick also at 4K. */
const LOOKED_AT = 12;
const LONGEST_SECONDS = 20;

/**
 * Whether the first pictures of a film are two interleaved fields, by the flag that the decoder gives each of them
 * (`i:T` or `i:B` in the lines of `showinfo`, `i:P` for a whole picture). For ffmpeg before 4.3, which does not print
 * the order of the fields of H.264 in MP4.
 */
export async function looksInterlaced(file: string, ffmpeg: Ffmpeg): Promise<boolean> {
  let interlaced = false;
  const run = startFfmpeg(ffmpeg, {
    inputArguments: [],
    input: { file },
    outputArguments: [
      ...['-map', '0:V:0', '-frames:v', String(LOOKED_AT), '-filter:v', 'showinfo'],
      ...['-loglevel', 'repeat+info'],
    ],
    output: 'none',
    longestSeconds: LONGEST_SECONDS,
    onLine: (line) => {
      if (/\bi:[TB]\b/.test(line)) interlaced = true;
    },
  });
  await run.exit;
  return interlaced;
}
