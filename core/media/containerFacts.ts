import { existsSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { Worker } from 'node:worker_threads';
import {
  EncodedPacketSink,
  FilePathSource,
  Input,
  type InputVideoTrack,
  Logging,
  LogLevel,
  MATROSKA,
  MP4,
  QTFF,
  WEBM,
} from 'mediabunny';

/** What the container itself says about its first film track. */
export interface ContainerFacts {
  /** Clockwise turn, applied before the flip. */
  readonly rotationDegrees: 0 | 90 | 180 | 270;
  readonly flipped: boolean;
  /** Presentation times of the packets that a player shows, seconds, in order. */
  readonly packetTimes: readonly number[];
  /** Where the last packet ends, seconds. */
  readonly endSeconds: number;
  /** Frames a second while recording (`com.android.capture.fps`), or null. */
  readonly captureRate: number | null;
  /** The creation date with zone that Apple's cameras write, or null. */
  readonly creationDate: string | null;
}

/** Ten hours at 60 frames a second; a file that lies about its length must not fill the memory. */
const MOST_PACKETS = 2_200_000;

/**
 * Reads an MP4, QuickTime, Matroska or WebM file with mediabunny, in this thread. Some damaged files send it round
 * in circles: use {@link readContainerFacts} for files from anywhere.
 *
 * @returns null where mediabunny can't make sense of the file: another container, or damage.
 */
export async function readContainerFactsHere(file: string): Promise<ContainerFacts | null> {
  Logging.level = LogLevel.Silent;
  const input = new Input({
    formats: [MP4, QTFF, MATROSKA, WEBM],
    source: new FilePathSource(file, { handleUnhandledError: () => undefined }),
  });
  try {
    const track = (await input.getVideoTracks())[0];
    if (track === undefined) return null;
    const raw = (await input.getMetadataTags()).raw ?? {};
    const { packetTimes, endSeconds } = await readPacketTimes(track);
    return {
      rotationDegrees: await track.getRotation(),
      flipped: await track.getFlip(),
      packetTimes,
      endSeconds,
      captureRate: captureRateOf(raw['com.android.capture.fps']),
      creationDate: textOf(raw['com.apple.quicktime.creationdate']),
    };
  } catch {
    return null;
  } finally {
    input.dispose();
  }
}

/** Ten hours of film are read in less; a damaged file that takes longer is left to ffmpeg alone. */
const READING_MILLISECONDS = 15_000;
const READING_MEGABYTES = 512;

/**
 * Reads what the container of an MP4, QuickTime, Matroska or WebM file says, in a thread of its own that is ended
 * when it takes too long or too much memory.
 *
 * @returns null where the file can't be read so: another container, or damage. ffmpeg then has the say.
 */
export function readContainerFacts(file: string): Promise<ContainerFacts | null> {
  const program = fileURLToPath(new URL(COMPILED_READER, import.meta.url));
  // From source and never built (single unit tests) there is no program for the thread.
  if (!existsSync(program)) return readContainerFactsHere(file);
  return new Promise((settle) => {
    const worker = new Worker(program, {
      workerData: file,
      stdout: true,
      stderr: true,
      resourceLimits: { maxOldGenerationSizeMb: READING_MEGABYTES },
    });
    const timer = setTimeout(() => finish(null), READING_MILLISECONDS);
    let finished = false;
    // Ending the thread makes it report its exit too; only the first answer counts.
    const finish = (facts: ContainerFacts | null) => {
      if (finished) return;
      finished = true;
      clearTimeout(timer);
      settle(facts);
      void worker.terminate();
    };
    worker.once('message', finish);
    worker.once('error', () => finish(null));
    worker.once('exit', () => finish(null));
  });
}

const COMPILED_READER = import.meta.url.endsWith('.ts')
  ? '../../dist/core/media/containerReader.js'
  : './containerReader.js';

async function readPacketTimes(track: InputVideoTrack) {
  const packetTimes: number[] = [];
  let endSeconds = 0;
  for await (const packet of new EncodedPacketSink(track).packets(undefined, undefined, {
    metadataOnly: true,
  })) {
    // An edit list gives pictures before the start negative times; a player does not show them.
    if (packet.timestamp < 0) continue;
    packetTimes.push(packet.timestamp);
    endSeconds = Math.max(endSeconds, packet.timestamp + packet.duration);
    if (packetTimes.length >= MOST_PACKETS) break;
  }
  return { packetTimes: packetTimes.sort((a, b) => a - b), endSeconds };
}

/**
 * The tag is a 32-bit float in big-endian order in the `mdta` metadata that Android's camera writes (value type 23 of
 * Apple's QuickTime File Format, "Well-known types"); ffmpeg writes it as text.
 */
export function captureRateOf(value: unknown): number | null {
  let rate = Number.NaN;
  if (typeof value === 'string' && value.trim() !== '') rate = Number(value);
  if (typeof value === 'number') rate = value;
  if (value instanceof Uint8Array && value.byteLength === 4) {
    rate = new DataView(value.buffer, value.byteOffset, 4).getFloat32(0, false);
  }
  return Number.isFinite(rate) && rate > 0 ? rate : null;
}

function textOf(value: unknown): string | null {
  return typeof value === 'string' ? value : null;
}
