import { describe, expect, it } from 'vitest';
import { PLAIN_PHASE_WORDS } from '../../../cli/views/words/phaseWords.js';
import { stageInWords } from '../../../cli/views/words/planInWords.js';

describe('stageInWords', () => {
  it('leaves out what was not prescribed', () => {
    const tempo = { eccentric: 5, stretchedHold: null, concentric: null, contractedHold: 1 };
    expect(stageInWords({ tempo, reps: null }, PLAIN_PHASE_WORDS)).toBe(
      'lower for 5 s, contracted hold for 1 s',
    );
  });

  it('says what X means', () => {
    const tempo = { eccentric: 'X', stretchedHold: 0, concentric: 'X', contractedHold: 0.5 } as const;
    expect(stageInWords({ tempo, reps: { min: 1, max: 1 } }, PLAIN_PHASE_WORDS)).toBe(
      'lower quickly (not judged), no stretched hold, lift as fast as the load allows, contracted hold for 0.5 s, 1 rep',
    );
  });

  it('says so when nothing was prescribed', () => {
    expect(stageInWords({ tempo: null, reps: null }, PLAIN_PHASE_WORDS)).toBe(
      'no tempo and no reps prescribed',
    );
    expect(stageInWords({ tempo: null, reps: { min: 5, max: 10 }, partials: true }, PLAIN_PHASE_WORDS)).toBe(
      '5 to 10 reps of part of the range',
    );
  });
});
