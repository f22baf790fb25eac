import type { BoutReport, RestReport } from '../report/setReport.js';

/**
 * The pauses between bouts that follow each other without overlapping: a rest where the same side (or both) works
 * on, a change of side otherwise, which is never judged.
 *
 * @param bouts in order of time
 */
export function restsBetween(
  bouts: readonly BoutReport[],
  plannedSeconds: number | null,
): readonly RestReport[] {
  const rests: RestReport[] = [];
  for (let i = 1; i < bouts.length; i++) {
    const [earlier, later] = [bouts[i - 1]!, bouts[i]!];
    const startSeconds = Math.max(...bouts.slice(0, i).map((bout) => bout.endSeconds));
    if (later.startSeconds <= startSeconds) continue;
    const kind = earlier.side === later.side ? 'rest' : 'side-change';
    rests.push({
      kind,
      startSeconds,
      endSeconds: later.startSeconds,
      seconds: later.startSeconds - startSeconds,
      plannedSeconds: kind === 'rest' ? plannedSeconds : null,
    });
  }
  return rests;
}
