import type { BoutReport } from '../../../analysis/report/setReport.js';

/** Where the panel of a bout stands in the picture, pixels. */
export interface Panel {
  readonly left: number;
  readonly top: number;
  readonly right: number;
  readonly bottom: number;
  readonly fontSize: number;
}

interface Size {
  readonly width: number;
  readonly height: number;
}

/** Smallest letters that can still be read on a phone, pixels. */
const LEAST_FONT = 9;
/** Mean width of a bold letter in line heights, for the widest of the usual fonts (DejaVu Sans). */
const LETTER_WIDTH = 0.57;
/** Height of a panel in letters: a verdict, a rep, the running seconds, the bar. */
const LINES = 5.6;

/** Alternating work: left and right at the same time, each with its own reps. */
function runsBeside(bout: BoutReport, bouts: readonly BoutReport[]): boolean {
  return bouts.some(
    (other) => other !== bout && other.startSeconds < bout.endSeconds && other.endSeconds > bout.startSeconds,
  );
}

/**
 * A panel for every bout: across the foot of the picture, or half of it where another bout runs at the same time
 * (the lifter's left arm left, the right arm right).
 *
 * @param longestLine letters of the longest line that a panel has to hold.
 */
export function panelPlaces(size: Size, bouts: readonly BoutReport[], longestLine: number): readonly Panel[] {
  const ideal = Math.max(13, Math.round(Math.min(size.width, size.height) / 17));
  const margin = Math.round(ideal * 0.6);
  const half = (size.width - 3 * margin) / 2;
  return bouts.map((bout) => {
    const beside = runsBeside(bout, bouts);
    const width = beside ? half : size.width - 2 * margin;
    const left = beside && bout.side === 'right' ? 2 * margin + half : margin;
    // Room for the line and for a little over half a letter on either side of it.
    const widest = width / (longestLine * LETTER_WIDTH + 1.2);
    const fontSize = Math.max(LEAST_FONT, Math.min(ideal, Math.floor(widest)));
    const bottom = size.height - margin;
    return { left, right: left + width, bottom, top: bottom - Math.round(fontSize * LINES), fontSize };
  });
}
