import { VERDICTS, type Verdict } from '../words/verdicts.js';
import type { Colors } from './style.js';

/** How much of a verdict a table cell has room for. The sign is always there. */
export type VerdictDetail = 'always-word' | 'word-when-off' | 'sign';

const COLORS: Readonly<Record<Verdict, keyof Colors>> = {
  met: 'green',
  short: 'yellow',
  long: 'yellow',
  unclear: 'dim',
};

export function verdictText(verdict: Verdict, detail: VerdictDetail, colors: Colors): string {
  const { sign, word } = VERDICTS[verdict];
  const withWord = detail === 'always-word' || (detail === 'word-when-off' && verdict !== 'met');
  const paint = colors[COLORS[verdict]] as (text: string) => string;
  return paint(withWord ? `${sign} ${word}` : sign);
}
