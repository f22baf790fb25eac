import type { PhaseReport } from '../../../analysis/report/setReport.js';
import type { Colors } from './style.js';

export type Verdict = NonNullable<PhaseReport['verdict']>;

/** How much of a verdict a table cell has room for. The symbol is always there. */
export type VerdictDetail = 'always-word' | 'word-when-off' | 'symbol';

const LOOKS: Record<
  Verdict,
  { readonly symbol: string; readonly word: string; readonly color: keyof Colors }
> = {
  met: { symbol: '✓', word: 'met', color: 'green' },
  short: { symbol: '▼', word: 'short', color: 'yellow' },
  long: { symbol: '▲', word: 'long', color: 'yellow' },
  unclear: { symbol: '?', word: 'unclear', color: 'dim' },
};

export function verdictText(verdict: Verdict, detail: VerdictDetail, colors: Colors): string {
  const { symbol, word, color } = LOOKS[verdict];
  const withWord = detail === 'always-word' || (detail === 'word-when-off' && verdict !== 'met');
  const paint = colors[color] as (text: string) => string;
  return paint(withWord ? `${symbol} ${word}` : symbol);
}

/** Says in words what the symbols mean. */
export const VERDICT_LEGEND = '✓ met, ▼ short, ▲ long, ? unclear: the ± reaches across the limit.';
