import { open } from 'node:fs/promises';
import { Failure } from '../failure.js';
import { captureRateOf, type Pace, paceOf, slowMotionFactor, slowMotionIsDoubtful } from './clock.js';
import { type ContainerFacts, readContainerFacts } from './containerFacts.js';
import { startFfmpeg } from './ffmpegProcess.js';
import type { FilmFacts } from './film.js';
import { refuseHugePictures } from './filmLimits.js';
import { looksInterlaced } from './interlaced.js';
import type { Ffmpeg } from './locateFfmpeg.js';
import { packetTimesByFfmpeg } from './packetTimes.js';
import { refuseUnreadable } from './readableFilm.js';
import { recordedAt } from './recordedAt.js';
import { readStreamDescription, type StreamDescription } from './streamDescription.js';

const DESCRIPTION_LONGEST_SECONDS = 60;

/**
 * Reads the facts of a film without decoding its pictures. ffmpeg, which will decode it, says what it sees;
 * mediabunny adds what ffmpeg does not print: mirrored pictures and the times of all packets (MP4, QuickTime,
 * Matroska and WebM; other containers are read by ffmpeg alone).
 *
 * @throws Failure of kind `film`: missing, a folder, empty, no film, without pictures, cut off beyond use.
 */
export async function readFilmFacts(file: string, ffmpeg: Ffmpeg): Promise<FilmFacts> {
  await refuseUnreadable(file);
  const [stream, container] = await Promise.all([describeByFfmpeg(file, ffmpeg), readContainerFacts(file)]);
  refuseHugePictures(file, stream.codedWidth, stream.codedHeight);

  const times = container?.packetTimes ?? (await packetTimesByFfmpeg(file, ffmpeg));
  const pace: Pace = paceOf(times) ?? { frameRate: stream.averageFrameRate ?? 0, variableFrameRate: false };
  const captureRate = container?.captureRate ?? captureRateOf(stream.tags.get('com.android.capture.fps'));
  const clockOffsetSeconds = isBroadcast(stream.container) ? stream.startSeconds : 0;
  return {
    file,
    recordedAt: recordedAt(withCreationDate(stream.tags, container)),
    durationSeconds: durationOf(stream, times, container, clockOffsetSeconds),
    ...shownSize(stream, turnOf(stream, container)),
    ...pace,
    slowMotionFactor: slowMotionFactor(captureRate, pace),
    slowMotionDoubtful: slowMotionIsDoubtful(captureRate, pace),
    rotationDegrees: turnOf(stream, container),
    flipped: container?.flipped ?? false,
    highDynamicRange: stream.highDynamicRange,
    codec: stream.codec,
    interlaced: stream.interlaced ?? (await looksInterlaced(file, ffmpeg)),
    container: stream.container,
    clockOffsetSeconds,
    firstStoredSeconds: container?.firstStoredSeconds ?? (times[0] ?? 0) - clockOffsetSeconds,
  };
}

async function describeByFfmpeg(file: string, ffmpeg: Ffmpeg): Promise<StreamDescription> {
  const lines: string[] = [];
  // Without an output ffmpeg prints what it sees and ends; fluent-ffmpeg insists on one, so no frame is asked for.
  const run = startFfmpeg(ffmpeg, {
    inputArguments: [],
    input: { file },
    outputArguments: ['-map', '0:V:0?', '-c', 'copy', '-frames:v', '0'],
    output: 'none',
    longestSeconds: DESCRIPTION_LONGEST_SECONDS,
    onLine: (line) => lines.push(line),
  });
  const exit = await run.exit;
  if (exit.startError !== null) {
    throw new Failure(
      'installation',
      `ffmpeg at "${ffmpeg.path}" does not start.`,
      'Run tempofilm doctor.',
      exit.startError,
    );
  }
  if (exit.outOfTime) {
    throw new Failure(
      'film',
      `ffmpeg said nothing of "${file}" for ${DESCRIPTION_LONGEST_SECONDS} s and was ended.`,
      'The film may be damaged or its disk too slow: copy it to this machine and try again.',
    );
  }
  if (exit.signal === 'SIGKILL' || exit.signal === 'SIGTERM') {
    throw new Failure(
      'film',
      `ffmpeg was ended from outside (${exit.signal}) while reading "${file}".`,
      'Try again.',
    );
  }
  if (exit.signal !== null) {
    throw new Failure(
      'film',
      `ffmpeg ${ffmpeg.version} crashed on "${file}" (${exit.signal}).`,
      'The film may be damaged; if it plays elsewhere, another ffmpeg may read it: --ffmpeg <path>.',
    );
  }
  const description = readStreamDescription(lines);
  if (description === 'no-input') throw await notAFilm(file, lines);
  if (description === 'no-video') {
    throw new Failure('film', `"${file}" holds no film, at most sound or text.`, 'Choose the film itself.');
  }
  return description;
}

async function notAFilm(file: string, lines: readonly string[]): Promise<Failure> {
  // ffmpeg takes any text named .mp4 for a film without an index.
  if (lines.some((line) => line.includes('moov atom not found')) && (await beginsLikeMp4(file))) {
    return new Failure(
      'film',
      `"${file}" was cut off before its index was written; no player can open it.`,
      'Copy the film from the phone again.',
    );
  }
  return new Failure(
    'film',
    `"${file}" is not a film that can be read.`,
    'Check that it plays in a video player.',
  );
}

/** An ISO base media file begins with a box: four bytes of length, four of its type (ISO/IEC 14496-12, 4.2). */
async function beginsLikeMp4(file: string): Promise<boolean> {
  const handle = await open(file, 'r');
  try {
    const { buffer, bytesRead } = await handle.read(Buffer.alloc(8), 0, 8, 0);
    return bytesRead === 8 && /ftyp|moov|mdat|free|skip|wide|pnot|uuid/.test(buffer.toString('latin1', 4, 8));
  } finally {
    await handle.close();
  }
}

/** A right angle; the container's own matrix first, since it is exact. */
function turnOf(stream: StreamDescription, container: ContainerFacts | null): FilmFacts['rotationDegrees'] {
  if (container !== null && container.rotationDegrees !== 0) return container.rotationDegrees;
  if (container?.flipped) return 0;
  return ((Math.round(stream.rotationDegrees / 90) * 90) % 360) as FilmFacts['rotationDegrees'];
}

function shownSize(stream: StreamDescription, turn: number): { width: number; height: number } {
  const across = Math.max(1, Math.round(stream.codedWidth * stream.pixelAspectRatio));
  const down = stream.codedHeight;
  return turn % 180 === 0 ? { width: across, height: down } : { width: down, height: across };
}

/** The last packet's end says most; ffmpeg prints the length sometimes with and sometimes without a late start. */
function durationOf(
  stream: StreamDescription,
  times: readonly number[],
  container: ContainerFacts | null,
  clockOffsetSeconds: number,
): number {
  if (container !== null && container.endSeconds > 0) return container.endSeconds;
  return stream.durationSeconds ?? Math.max(0, (times.at(-1) ?? 0) - clockOffsetSeconds);
}

function isBroadcast(container: string): boolean {
  return container.split(',').some((name) => name === 'mpegts' || name === 'mpeg');
}

function withCreationDate(
  tags: ReadonlyMap<string, string>,
  container: ContainerFacts | null,
): ReadonlyMap<string, string> {
  if (container?.creationDate == null) return tags;
  return new Map([...tags, ['com.apple.quicktime.creationdate', container.creationDate]]);
}
