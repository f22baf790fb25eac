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
import { captureRateOf } from './clock.js';
import type { ContainerFacts } from './containerFacts.js';

/** Ten hours at 60 frames a second; a file that lies about its length must not fill the memory. */
const MOST_PACKETS = 2_200_000;

/**
 * Reads an MP4, QuickTime, Matroska or WebM file with mediabunny, in this thread. Some damaged files send it round
 * in circles: use `readContainerFacts` for files from anywhere.
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
    const { packetTimes, firstStoredSeconds, endSeconds } = await readPacketTimes(track);
    return {
      rotationDegrees: await track.getRotation(),
      flipped: await track.getFlip(),
      packetTimes,
      firstStoredSeconds,
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

async function readPacketTimes(track: InputVideoTrack) {
  const packetTimes: number[] = [];
  let firstStoredSeconds = Number.POSITIVE_INFINITY;
  let endSeconds = 0;
  for await (const packet of new EncodedPacketSink(track).packets(undefined, undefined, {
    metadataOnly: true,
  })) {
    firstStoredSeconds = Math.min(firstStoredSeconds, packet.timestamp);
    // An edit list gives pictures before the start negative times; a player does not show them.
    if (packet.timestamp < 0) continue;
    packetTimes.push(packet.timestamp);
    endSeconds = Math.max(endSeconds, packet.timestamp + packet.duration);
    if (packetTimes.length >= MOST_PACKETS) break;
  }
  return {
    packetTimes: packetTimes.sort((a, b) => a - b),
    firstStoredSeconds: Number.isFinite(firstStoredSeconds) ? firstStoredSeconds : 0,
    endSeconds,
  };
}

function textOf(value: unknown): string | null {
  return typeof value === 'string' ? value : null;
}
