import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { type MoveShape, tabulate, travelledAt } from '../../../analysis/segmentation/moveShape.js';

const ARCH: MoveShape = { family: 'arched', start: 1, end: 1 };

describe('the way covered by a move of a given shape', () => {
  it('is that of the closed form, between the entries of the table too', () => {
    // The speed u (1 − u) covers 3u² − 2u³ of the way: the beta distribution with both parameters 2.
    const table = tabulate(ARCH);
    fc.assert(
      fc.property(fc.double({ min: 0, max: 1, noNaN: true }), (share) => {
        expect(travelledAt(table, share)).toBeCloseTo(3 * share ** 2 - 2 * share ** 3, 4);
      }),
    );
  });

  it('never runs back, and has no corner: its slope is the speed from either side', () => {
    const nudge = 1e-6;
    const shape: MoveShape = { family: 'ramped', startRamp: 0.05, endRamp: 0.2, lean: 0.3 };
    const table = tabulate(shape);
    const cells = table.speeds.length - 1;
    for (let cell = 1; cell < cells; cell++) {
      const at = travelledAt(table, cell / cells);
      const before = (at - travelledAt(table, cell / cells - nudge)) / nudge;
      const after = (travelledAt(table, cell / cells + nudge) - at) / nudge;
      expect(before).toBeCloseTo(table.speeds[cell]!, 3);
      expect(after).toBeCloseTo(table.speeds[cell]!, 3);
    }
    fc.assert(
      fc.property(fc.double({ min: 0, max: 0.999, noNaN: true }), (share) => {
        expect(travelledAt(table, share + 0.001)).toBeGreaterThanOrEqual(travelledAt(table, share));
      }),
    );
  });

  it('is nothing before the move and all of it after', () => {
    expect(travelledAt(tabulate(ARCH), -0.1)).toBe(0);
    expect(travelledAt(tabulate(ARCH), 1.1)).toBeCloseTo(1, 12);
  });
});
