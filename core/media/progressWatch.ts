/** Follows ffmpeg's own progress lines (`-progress`). */
export interface ProgressWatch {
  /** Gives the film time in seconds where the line reports a new one, else null. */
  read(line: string): number | null;
  hasStalled(): boolean;
  end(): void;
}

/** Calls `onStall` once when the time ffmpeg has reached stands still for `seconds`. */
export function watchProgress(seconds: number, onStall: () => void): ProgressWatch {
  let reached = '';
  let stalled = false;
  const start = () =>
    setTimeout(() => {
      stalled = true;
      onStall();
    }, seconds * 1000);
  let timer = start();
  return {
    read: (line) => {
      // In spite of its name this field is in microseconds, in every version.
      const field = /^out_time_ms=(.*)$/.exec(line)?.[1];
      if (field === undefined || field === reached) return null;
      reached = field;
      clearTimeout(timer);
      timer = start();
      const microseconds = Number(field);
      return Number.isFinite(microseconds) ? microseconds / 1e6 : null;
    },
    hasStalled: () => stalled,
    end: () => clearTimeout(timer),
  };
}
