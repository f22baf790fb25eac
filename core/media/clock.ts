/** How regularly a film was recorded. */
export interface Pace {
  /** Average frames a second. */
  readonly frameRate: number;
  readonly variableFrameRate: boolean;
}

/** A container rounds times to its own grid (Matroska: 1 ms), which is no change of rate. */
const GRID_SECONDS = 0.0021;
const RELATIVE_DIFFERENCE = 0.1;
const SHARE_OF_UNEVEN_FRAMES = 0.02;

/**
 * Average rate of a film, and whether the rate varies: more than one interval in fifty differs from the median
 * interval by more than a tenth. Single dropped or doubled frames do not make a rate variable.
 *
 * @param times Presentation times in seconds in any order.
 * @returns null for fewer than two different times.
 */
export function paceOf(times: readonly number[]): Pace | null {
  const sorted = Float64Array.from(times).sort();
  const intervals: number[] = [];
  for (let index = 1; index < sorted.length; index += 1) {
    const interval = sorted[index]! - sorted[index - 1]!;
    if (interval > 0) intervals.push(interval);
  }
  if (intervals.length === 0) return null;
  const span = sorted[sorted.length - 1]! - sorted[0]!;
  const median = [...intervals].sort((a, b) => a - b)[Math.floor(intervals.length / 2)]!;
  const allowed = Math.max(GRID_SECONDS, RELATIVE_DIFFERENCE * median);
  const uneven = intervals.filter((interval) => Math.abs(interval - median) > allowed).length;
  return {
    frameRate: intervals.length / span,
    variableFrameRate: uneven > intervals.length * SHARE_OF_UNEVEN_FRAMES,
  };
}

/**
 * Rates a few per cent apart are the same rate, printed or averaged differently: 30 against 29.97, 240 against the
 * 239.98 of a film stored in real time. No camera's slow motion lies so close to one.
 */
const SAME_RATE = 1.05;
/**
 * A phone lowers its rate in low light: 30 asked for, 20 to 24 stored, at a varying rate and in real time. The least
 * slow motion that cameras offer is 60 played as 30. In between a film of varying rate is taken for real time, and
 * {@link slowMotionIsDoubtful} says so.
 */
const LEAST_SLOW_MOTION_OF_VARIABLE_FILM = 1.5;

/**
 * How many times too slowly a film is stored: the rate at which it was captured over the average rate it is stored
 * at, where that is above one.
 *
 * Source: Android `MediaFormat.KEY_CAPTURE_RATE` ("com.android.capture.fps" in the file): where it differs from the
 * frame rate, the film plays slower or faster than life. Many phones write the tag on real-time films as well; their
 * stored rate then equals the captured one.
 *
 * @param captureRate Frames a second while recording, or null where the film does not say.
 */
export function slowMotionFactor(captureRate: number | null, pace: Pace): number {
  const factor = captureOverStored(captureRate, pace);
  const least = pace.variableFrameRate ? LEAST_SLOW_MOTION_OF_VARIABLE_FILM : SAME_RATE;
  return factor >= least ? factor : 1;
}

/** Whether a film of varying rate stores so few frames for its captured ones that it could be slow motion or low light. */
export function slowMotionIsDoubtful(captureRate: number | null, pace: Pace): boolean {
  const factor = captureOverStored(captureRate, pace);
  return pace.variableFrameRate && factor >= SAME_RATE && factor < LEAST_SLOW_MOTION_OF_VARIABLE_FILM;
}

/** Beyond what any phone offers (960 a second, 7680 by interpolation; from memory): damage, or a trap. */
const HIGHEST_CAPTURE_RATE = 8000;

function captureOverStored(captureRate: number | null, { frameRate }: Pace): number {
  if (captureRate === null || !(captureRate > 0 && captureRate <= HIGHEST_CAPTURE_RATE)) return 1;
  return frameRate >= 1 ? captureRate / frameRate : 1;
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
