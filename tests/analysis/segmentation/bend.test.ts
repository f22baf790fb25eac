import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { shownShare } from '../../../analysis/segmentation/bend.js';

describe('a move as the pose model shows it', () => {
  it('begins, has its middle and ends where the move does', () => {
    expect(shownShare(0)).toBe(0);
    expect(shownShare(0.5)).toBeCloseTo(0.5, 12);
    expect(shownShare(1)).toBeCloseTo(1, 12);
  });

  it('comes off both ends more slowly than it does, alike at both, and never runs back', () => {
    const step = 1e-3;
    expect(shownShare(step)).toBeLessThan(step);
    fc.assert(
      fc.property(fc.double({ min: 0, max: 1 - step, noNaN: true }), (share) => {
        expect(shownShare(share + step)).toBeGreaterThan(shownShare(share));
        expect(shownShare(share) + shownShare(1 - share)).toBeCloseTo(1, 12);
      }),
    );
  });
});
