import { SHORTENED_BELOW } from '../../../analysis/scoring/range.js';

/**
 * "82 %" from 0.82; "89.6 %" from 0.896, because "90 %" beside a mark that means "under 90 %" would read as a mistake.
 * Rounded down then, so that it never reaches the limit.
 */
export function shareUnderLimitText(share: number): string {
  const rounded = Math.round(share * 100);
  if (share >= SHORTENED_BELOW || rounded < SHORTENED_BELOW * 100) return `${rounded} %`;
  return `${(Math.floor(share * 1000) / 10).toFixed(1)} %`;
}
