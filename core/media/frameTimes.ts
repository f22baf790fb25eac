/**
 * Reads the presentation time of every frame from the lines of ffmpeg's `showinfo` filter.
 *
 * The printed `pts_time` has six significant digits, a hundredth of a second after three hours; the exact tick count
 * and the time base (printed when the filter starts, and again should the film change its size) are used instead.
 */
export class FrameTimeReader {
  private secondsPerTick = 0;
  private readonly waiting: (number | null)[] = [];

  /** Takes a line of standard error; lines of other parts of ffmpeg are passed over. */
  read(line: string): void {
    const timeBase = /config in time_base: (\d+)\/(\d+)/.exec(line);
    if (timeBase !== null) this.secondsPerTick = Number(timeBase[1]) / Number(timeBase[2]);
    const frame = /\bn: *\d+ pts: *(-?\d+|NOPTS) +pts_time:/.exec(line);
    if (frame !== null)
      this.waiting.push(frame[1] === 'NOPTS' ? null : Number(frame[1]) * this.secondsPerTick);
  }

  /** The time of the next frame in seconds, null for a frame without one, undefined when none has been printed yet. */
  take(): number | null | undefined {
    return this.waiting.shift();
  }
}
