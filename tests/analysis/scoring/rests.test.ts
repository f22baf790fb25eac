import { describe, expect, it } from 'vitest';
import { findRests } from '../../../analysis/scoring/rests.js';

const bout = (side: 'left' | 'right' | 'both', startSeconds: number, endSeconds: number) => ({
  side,
  startSeconds,
  endSeconds,
});

describe('findRests', () => {
  it('calls the time before the same side a rest, and before the other a change of sides', () => {
    const rests = findRests([bout('left', 3, 50), bout('left', 62, 80), bout('right', 95, 140)], 90);
    expect(rests).toEqual([
      { kind: 'rest', startSeconds: 50, endSeconds: 62, seconds: 12, plannedSeconds: 90 },
      { kind: 'side-change', startSeconds: 80, endSeconds: 95, seconds: 15, plannedSeconds: null },
    ]);
  });

  it('sees none between bouts that overlap, as alternating arms do', () => {
    expect(findRests([bout('left', 0, 30), bout('right', 1, 29)], null)).toEqual([]);
    const later = findRests([bout('right', 1, 29), bout('left', 0, 30), bout('left', 40, 60)], null);
    expect(later.map((rest) => [rest.kind, rest.seconds])).toEqual([['rest', 10]]);
  });

  it('has nothing to say of one bout or none', () => {
    expect(findRests([], null)).toEqual([]);
    expect(findRests([bout('both', 0, 9)], 60)).toEqual([]);
  });
});
