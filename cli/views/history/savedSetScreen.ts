import type { HistoryEntry } from '../../history/sets/readEntries.js';
import { setScreen } from '../terminal/setScreen.js';
import type { Style } from '../terminal/style.js';
import { wrapped } from '../terminal/wrapped.js';
import { dayText, timeOfDayText } from '../words/days.js';
import type { PhaseWords } from '../words/phaseWords.js';
import { loadWords } from '../words/setWords.js';
import { type AmendedSet, amendmentSentences } from './amendmentSentences.js';

export interface ScreenOfSavedSet extends AmendedSet {
  readonly entry: HistoryEntry;
  readonly words: PhaseWords | null;
}

/** A saved set as it was printed when it was analyzed, then what the history knows about it. */
export function savedSetScreen(saved: ScreenOfSavedSet, style: Style): string {
  const { colors, width } = style;
  const lines = aboutSaved(saved).map((line) => wrapped(line, width));
  const amended = amendmentSentences(saved).map((line) => colors.yellow(wrapped(line, width)));
  return `${setScreen(saved.report, saved.words, style)}\n${[...amended, ...lines].join('\n')}\n`;
}

function aboutSaved({ entry }: ScreenOfSavedSet): readonly string[] {
  const { instant, source } = entry.recordedAt;
  const when = `${dayText(instant)}, ${timeOfDayText(instant)}`;
  const lines = [
    source === 'film'
      ? `Set ${entry.id}, filmed ${when}.`
      : `Set ${entry.id}; the film does not say when it was recorded, its file is of ${when}.`,
  ];
  const { details } = entry;
  const load = loadWords(details);
  if (load !== '') lines.push(`Load: ${load}${details.warmUp ? ', warm-up' : ''}.`);
  else if (details.warmUp) lines.push('Marked as warm-up.');
  if (details.lifter !== null) lines.push(`Lifter: ${details.lifter}.`);
  if (details.note !== null) lines.push(`Note: ${details.note}`);
  if (entry.invented) lines.push('Invented for demonstration: nobody lifted this set.');
  return lines;
}
