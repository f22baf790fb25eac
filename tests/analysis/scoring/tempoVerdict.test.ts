import { describe, expect, it } from 'vitest';
import { parseTempo } from '../../../analysis/plan/tempo.js';
import { judgeExplosive, judgeSeconds } from '../../../analysis/scoring/tempoVerdict.js';
import { score, times } from './syntheticBout.js';

const plan = (tempo: string) => ({
  stages: [{ tempo: parseTempo(tempo), reps: null }],
  restSeconds: null,
});

describe('judgeSeconds', () => {
  it.each([
    // Planned 4 s: allowed 3.4 to 4.6 (15 %).
    [4, 0.1, 4, 'met'],
    [3.5, 0.1, 4, 'met'],
    [3.45, 0.1, 4, 'unclear'],
    [3.35, 0.1, 4, 'unclear'],
    [3.25, 0.1, 4, 'short'],
    [4.65, 0.1, 4, 'unclear'],
    [4.75, 0.1, 4, 'long'],
    // Planned 1 s: allowed 0.7 to 1.3 (0.3 s is the larger).
    [0.7, 0, 1, 'met'],
    [1.3, 0, 1, 'met'],
    [0.69, 0, 1, 'short'],
    [1.31, 0, 1, 'long'],
    // Planned 0: no deliberate pause, long only above 0.5 s.
    [0, 0.1, 0, 'met'],
    [0.4, 0.1, 0, 'met'],
    [0.45, 0.1, 0, 'unclear'],
    [0.65, 0.1, 0, 'long'],
    // So uncertain that nothing can be said.
    [4, 1, 4, 'unclear'],
  ] as const)('%d ± %d s against %d s is %s', (seconds, uncertainty, planned, verdict) => {
    expect(judgeSeconds(seconds, uncertainty, planned)).toBe(verdict);
  });

  it('takes another tolerance', () => {
    expect(judgeSeconds(3.6, 0, 4, { seconds: 0.1, share: 0.05 })).toBe('short');
    expect(judgeSeconds(3, 0, 4, { seconds: 1, share: 0 })).toBe('met');
  });
});

describe('judgeExplosive', () => {
  it.each([
    [0.9, 0.05, 0.5, 'met'],
    [1.0, 0.05, 0.5, 'unclear'],
    [1.2, 0.05, 0.5, 'long'],
    // Within 25 % of the quickest of the bout.
    [1.4, 0.05, 1.2, 'met'],
    [1.6, 0.05, 1.2, 'long'],
  ] as const)('%d ± %d s with a quickest of %d s is %s', (seconds, uncertainty, quickest, verdict) => {
    expect(judgeExplosive(seconds, uncertainty, quickest)).toBe(verdict);
  });
});

describe('verdicts of a bout', () => {
  const verdictsOf = (tempo: string, reps: Parameters<typeof times>[1], exercise = 'curl') =>
    score([{ exercise, reps: times(3, reps) }], { plan: plan(tempo) }).bouts[0]!.reps.map((rep) =>
      Object.fromEntries(rep.phases.map((phase) => [phase.kind, phase.verdict])),
    );

  it('judges every prescribed phase and leaves the others null', () => {
    const [first] = verdictsOf('4-_-1-1', {
      eccentric: 3,
      stretchedHold: 2,
      concentric: 1,
      contractedHold: 2,
    });
    expect(first).toEqual({
      eccentric: 'short',
      'stretched-hold': null,
      concentric: 'met',
      'contracted-hold': 'long',
    });
  });

  it('never judges the hold that ends a bout, but judges the other hold of the last rep', () => {
    const last = verdictsOf('2-1-1-1', { stretchedHold: 1, contractedHold: 1 }).at(-1);
    expect(last).toMatchObject({ 'stretched-hold': null, 'contracted-hold': 'met' });
    const lastSquat = verdictsOf('2-1-1-1', { stretchedHold: 1, contractedHold: 1 }, 'squat').at(-1);
    expect(lastSquat).toMatchObject({ 'stretched-hold': 'met', 'contracted-hold': null });
  });

  it('does not judge an explosive eccentric, and judges an explosive concentric', () => {
    const [first] = verdictsOf('X-0-X-0', { eccentric: 3, concentric: 0.6 });
    expect(first).toMatchObject({ eccentric: null, concentric: 'met' });
  });

  it('holds an explosive lift against the quickest whole rep, not against a partial one', () => {
    const { bouts } = score(
      [
        {
          exercise: 'curl',
          reps: [...times(4, { concentric: 1.4 }), { concentric: 0.5, contracted: 60 }, { concentric: 1.4 }],
        },
      ],
      { plan: plan('2-0-X-0') },
    );
    expect(bouts[0]!.reps[4]!.partial).toBe(true);
    expect(bouts[0]!.reps[0]!.phases[0]).toMatchObject({ kind: 'concentric', verdict: 'met' });
  });

  it('cannot tell about a rep that the film cuts', () => {
    const { bouts } = score(
      [{ exercise: 'curl', reps: [...times(3), { eccentric: 0.5, complete: false }] }],
      { plan: plan('2-0-1-0') },
    );
    expect(bouts[0]!.reps[3]!.phases.map((phase) => phase.verdict)).toEqual([
      'unclear',
      'unclear',
      'unclear',
      null,
    ]);
  });

  it('keeps what was planned beside every phase', () => {
    const { bouts } = score([{ exercise: 'curl', reps: times(3) }], { plan: plan('4-_-X-1') });
    expect(bouts[0]!.reps[0]!.phases.map((phase) => [phase.kind, phase.plannedSeconds])).toEqual([
      ['concentric', 'X'],
      ['contracted-hold', 1],
      ['eccentric', 4],
      ['stretched-hold', null],
    ]);
  });
});
