import { describe, expect, it } from 'vitest';
import { shareUnderLimitText } from '../../../../cli/views/words/shareUnderLimit.js';

describe('shareUnderLimitText', () => {
  it('never rounds a share under the limit up to it', () => {
    expect(shareUnderLimitText(0.824)).toBe('82 %');
    expect(shareUnderLimitText(0.896)).toBe('89.6 %');
    expect(shareUnderLimitText(0.8999)).toBe('89.9 %');
    expect(shareUnderLimitText(0.9)).toBe('90 %');
    expect(shareUnderLimitText(1.02)).toBe('102 %');
  });
});
