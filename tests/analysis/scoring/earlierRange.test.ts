import { describe, expect, it } from 'vitest';
import { parseStage } from '../../../analysis/plan/stage.js';
import { baselineOfEarlierSets, type EarlierRange } from '../../../analysis/scoring/earlierRange.js';

const slow = parseStage('4-0-1-1:8-10');
const bout = { side: 'left', facing: 'left', degreesOffSide: 10, stage: slow } as const;
const set = (degrees: number, over: Partial<EarlierRange> = {}): EarlierRange => ({
  ...bout,
  degrees,
  uncertaintyDegrees: 4,
  ...over,
});

describe('the baseline of earlier sets', () => {
  it('is the median of like sets, as uncertain as one of them', () => {
    expect(baselineOfEarlierSets([set(90), set(94, { uncertaintyDegrees: 6 }), set(80)], bout)).toEqual({
      degrees: 90,
      uncertaintyDegrees: 4,
      sets: 3,
    });
  });

  it('takes the latest five: what was reached long ago says little of today', () => {
    const found = baselineOfEarlierSets(
      [20, 20, 20, 20, 90, 90, 90, 92, 92].map((one) => set(one)),
      bout,
    );
    expect(found).toMatchObject({ degrees: 90, sets: 5 });
  });

  it.each([
    ['another side', { side: 'right' }],
    ['seen from elsewhere', { facing: 'front' }],
    ['more than 15° further off', { degreesOffSide: 26 }],
    ['another tempo', { stage: parseStage('3-0-1-1:8-10') }],
    ['planned partials', { stage: parseStage('4-0-1-1:8:partials') }],
    ['no plan', { stage: null }],
  ] as const)('leaves out %s', (_, over) => {
    expect(baselineOfEarlierSets([set(90, over)], bout)).toBeNull();
  });

  it('does not mind how many reps were planned, nor a few degrees of view', () => {
    expect(
      baselineOfEarlierSets([set(90, { stage: parseStage('4-0-1-1:5'), degreesOffSide: 25 })], bout),
    ).toMatchObject({ degrees: 90 });
  });

  it('is none without earlier sets', () => {
    expect(baselineOfEarlierSets([], bout)).toBeNull();
  });
});
