import type { PhaseReport } from '../../../analysis/report/setReport.js';

/** How a phase came out against the plan. */
export type Verdict = NonNullable<PhaseReport['verdict']>;

/** The sign and the word of each verdict: the same in the terminal, in tables and in charts. */
export const VERDICTS: Readonly<Record<Verdict, { readonly sign: string; readonly word: string }>> = {
  met: { sign: '✓', word: 'met' },
  short: { sign: '▼', word: 'short' },
  long: { sign: '▲', word: 'long' },
  unclear: { sign: '?', word: 'unclear' },
};

/** Says in words what the signs mean. */
export const VERDICT_LEGEND = `${Object.values(VERDICTS)
  .map(({ sign, word }) => `${sign} ${word}`)
  .join(', ')}: the ± reaches across the limit.`;
