import { startFfmpeg } from './ffmpegProcess.js';
import type { Ffmpeg } from './locateFfmpeg.js';

const LONGEST_SECONDS = 120;

/**
 * Presentation times (seconds, in order) of the packets of a film's first film stream, read by ffmpeg without
 * decoding. For containers that mediabunny does not open. Empty where ffmpeg can't say.
 */
export async function packetTimesByFfmpeg(file: string, ffmpeg: Ffmpeg): Promise<readonly number[]> {
  const run = startFfmpeg(ffmpeg, {
    inputArguments: ['-copyts'],
    input: { file },
    outputArguments: ['-map', '0:V:0', '-c', 'copy', '-f', 'framecrc'],
    output: 'stream',
    longestSeconds: LONGEST_SECONDS,
  });
  try {
    return await readFrameList(run.output!);
  } finally {
    await run.stop();
  }
}

/** Reads ffmpeg's `framecrc` form: `#tb 0: 1/25`, then a line a packet: stream, dts, pts, duration, size, sum. */
async function readFrameList(chunks: AsyncIterable<Buffer | string>): Promise<readonly number[]> {
  let secondsPerTick = 0;
  let rest = '';
  const times: number[] = [];
  for await (const chunk of chunks) {
    const lines = (rest + chunk.toString()).split('\n');
    rest = lines.pop()!;
    for (const line of lines) {
      const timeBase = /^#tb 0: (\d+)\/(\d+)/.exec(line);
      if (timeBase !== null) secondsPerTick = Number(timeBase[1]) / Number(timeBase[2]);
      const packet = /^0, +-?\d+, +(-?\d+),/.exec(line);
      if (packet !== null) times.push(Number(packet[1]) * secondsPerTick);
    }
  }
  return times.filter((time) => time >= 0).sort((a, b) => a - b);
}
