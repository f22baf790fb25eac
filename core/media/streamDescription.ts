/** What ffmpeg prints about the first film stream of a file. */
export interface StreamDescription {
  /** Family of the container, for example `mov,mp4,m4a,3gp,3g2,mj2`. */
  readonly container: string;
  /** Seconds from the first to the last moment, or null where the container does not say. */
  readonly durationSeconds: number | null;
  /** Time of the first moment in the container. */
  readonly startSeconds: number;
  readonly codec: string;
  /** Stored size in pixels, before rotation and with the stored pixel shape. */
  readonly codedWidth: number;
  readonly codedHeight: number;
  /** Width of one stored pixel over its height. */
  readonly pixelAspectRatio: number;
  readonly averageFrameRate: number | null;
  /** Clockwise turn in degrees that a player applies, 0 to below 360, as printed; not always a right angle. */
  readonly rotationDegrees: number;
  readonly highDynamicRange: boolean;
  /** Whether a picture is two interleaved fields; null where this ffmpeg does not say. */
  readonly interlaced: boolean | null;
  /** Metadata of the file, by lower-case key. */
  readonly tags: ReadonlyMap<string, string>;
}

/** `no-input`: ffmpeg could not open the file at all; `no-video`: it holds no film stream. */
export type DescriptionProblem = 'no-input' | 'no-video';

/**
 * Reads what `ffmpeg -i <film>` prints on standard error. The form of these lines has stayed the same from ffmpeg 4
 * to 7 for the parts read here.
 */
export function readStreamDescription(lines: readonly string[]): StreamDescription | DescriptionProblem {
  const container = firstMatch(lines, /^Input #0, (.+), from '/)?.[1];
  if (container === undefined) return 'no-input';
  const streamAt = lines.findIndex((line) => isFilmStream(line));
  if (streamAt < 0) return 'no-video';
  const stream = lines[streamAt]!;
  const size = /, (\d+)x(\d+)(?:[ ,]|$)/.exec(stream);
  if (size === null) return 'no-video';

  const timing = firstMatch(lines, /^ {2}Duration: ([^,]+)(?:, start: (-?[\d.]+))?/);
  const details = linesOfStream(lines, streamAt);
  return {
    container,
    durationSeconds: clockSeconds(timing?.[1] ?? ''),
    startSeconds: Number(timing?.[2] ?? 0),
    codec: /Video: ([^ ,]+)/.exec(stream)?.[1] ?? 'unknown',
    codedWidth: Number(size[1]),
    codedHeight: Number(size[2]),
    pixelAspectRatio: ratio(/\[?SAR (\d+:\d+)/.exec(stream)?.[1]),
    averageFrameRate: readFrameRate(stream),
    rotationDegrees: readRotation(details),
    highDynamicRange: /arib-std-b67|smpte2084/.test(stream),
    interlaced: readInterlaced(stream),
    tags: readTags(lines, details),
  };
}

function isFilmStream(line: string): boolean {
  return /^ {2,}Stream #0:\d+.*: Video: /.test(line) && !line.includes('(attached pic)');
}

function firstMatch(lines: readonly string[], pattern: RegExp): RegExpExecArray | null {
  for (const line of lines) {
    const match = pattern.exec(line);
    if (match !== null) return match;
  }
  return null;
}

/** The lines under a stream, down to the next stream. */
function linesOfStream(lines: readonly string[], streamAt: number): readonly string[] {
  const after = lines.slice(streamAt + 1);
  const end = after.findIndex((line) => /^ {2,}Stream #|^\S/.test(line));
  return end < 0 ? after : after.slice(0, end);
}

function clockSeconds(text: string): number | null {
  const match = /^(\d+):(\d\d):(\d\d(?:\.\d+)?)$/.exec(text);
  if (match === null) return null;
  return Number(match[1]) * 3600 + Number(match[2]) * 60 + Number(match[3]);
}

function ratio(text: string | undefined): number {
  const [across, down] = (text ?? '1:1').split(':').map(Number);
  const value = across! / down!;
  return Number.isFinite(value) && value > 0 ? value : 1;
}

function readFrameRate(stream: string): number | null {
  const average = /, ([\d.]+)(k?) fps/.exec(stream);
  if (average === null) return null;
  return Number(average[1]) * (average[2] === 'k' ? 1000 : 1);
}

/**
 * ffmpeg prints the counter-clockwise angle of the display matrix (libavutil/display.h, av_display_rotation_get);
 * before version 5 also a tag `rotate` with the clockwise one.
 */
function readRotation(details: readonly string[]): number {
  const printed = firstMatch(details, /displaymatrix: rotation of (-?[\d.]+) degrees/)?.[1];
  const clockwise =
    printed === undefined ? Number(firstMatch(details, /^ +rotate +: (-?\d+)/)?.[1] ?? 0) : -Number(printed);
  return Number.isFinite(clockwise) ? ((clockwise % 360) + 360) % 360 : 0;
}

/** ffmpeg before 4.3 prints no field order for H.264 in MP4, neither for pictures in fields nor for whole ones. */
function readInterlaced(stream: string): boolean | null {
  if (/(?:top|bottom) (?:coded )?first/.test(stream)) return true;
  if (stream.includes('progressive')) return false;
  return /Video: (?:h264|mpeg2video|dvvideo|vc1)\b/.test(stream) ? null : false;
}

function readTags(lines: readonly string[], details: readonly string[]): ReadonlyMap<string, string> {
  const streamsFrom = lines.findIndex((line) => /^ {2,}Stream #/.test(line));
  const tags = new Map<string, string>();
  for (const line of [...lines.slice(0, streamsFrom), ...details]) {
    const match = /^ {2,}([\w.©-]+) *: (.*)$/.exec(line);
    const key = match?.[1]?.toLowerCase();
    if (match !== null && key !== undefined && !tags.has(key)) tags.set(key, match[2]!.trim());
  }
  return tags;
}
