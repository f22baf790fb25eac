import type { RestReport } from '../report/setReport.js';

interface TimedBout {
  readonly side: 'left' | 'right' | 'both';
  readonly startSeconds: number;
  readonly endSeconds: number;
}

/**
 * The times between bouts: a `rest` before the same side works again, a `side-change` before the other does.
 * Never judged. Bouts that overlap (alternating sides) have none between them.
 *
 * @param bouts in any order; seconds on one clock.
 */
export function findRests(bouts: readonly TimedBout[], plannedSeconds: number | null): RestReport[] {
  const inOrder = [...bouts].sort((first, second) => first.startSeconds - second.startSeconds);
  const rests: RestReport[] = [];
  let lastToEnd = inOrder[0];
  for (const bout of inOrder.slice(1)) {
    if (bout.startSeconds > lastToEnd!.endSeconds) {
      const kind = bout.side === lastToEnd!.side ? 'rest' : 'side-change';
      rests.push({
        kind,
        startSeconds: lastToEnd!.endSeconds,
        endSeconds: bout.startSeconds,
        seconds: bout.startSeconds - lastToEnd!.endSeconds,
        plannedSeconds: kind === 'rest' ? plannedSeconds : null,
      });
    }
    if (bout.endSeconds >= lastToEnd!.endSeconds) lastToEnd = bout;
  }
  return rests;
}
