import { describe, expect, it } from 'vitest';
import { findExercise } from '../../../analysis/exercises/catalogue.js';
import type { Plan } from '../../../analysis/plan/plan.js';
import { parseStage } from '../../../analysis/plan/stage.js';
import { headline } from '../../../analysis/report/headline.js';
import { type BoutPlan, score, times } from '../scoring/syntheticBout.js';

const plan = (...stages: string[]): Plan => ({ stages: stages.map(parseStage), restSeconds: null });

function said(bouts: readonly BoutPlan[], given: Plan | null = null): string {
  const exercise = findExercise(bouts[0]!.exercise);
  return headline(score(bouts, { plan: given }).bouts, exercise, given);
}

const rows = (reps: BoutPlan['reps'], changes: Partial<BoutPlan> = {}): BoutPlan => ({
  exercise: 'single-arm-row',
  reps,
  ...changes,
});

describe('headline', () => {
  it('tells what was delivered, where control ended and where range shortened', () => {
    const tired = { eccentric: 2, contracted: 77 };
    expect(said([rows([...times(8, { eccentric: 5 }), ...times(2, tired)])], plan('5-0-1-0:8-10'))).toBe(
      'Delivered 44 of 50 planned lowering seconds in 10 reps; the last controlled rep was rep 8, and range shortened from rep 9 (17 % below the first reps).',
    );
  });

  it('says when everything held', () => {
    expect(said([rows(times(8, { eccentric: 4 }))], plan('4-0-1-0:8-10'))).toBe(
      'Delivered 32 of 32 planned lowering seconds in 8 reps; the lowering stayed controlled to the last rep, and range held to the end.',
    );
  });

  it('does not call range or control held where single reps fell short of it', () => {
    const hurried = { eccentric: 2 };
    const shallow = { eccentric: 4, contracted: 77 };
    const reps = [...times(3, { eccentric: 4 }), hurried, ...times(2, { eccentric: 4 }), shallow];
    expect(said([rows([...reps, { eccentric: 4 }, shallow, { eccentric: 4 }])], plan('4-0-1-0'))).toBe(
      'Delivered 38 of 40 planned lowering seconds in 10 reps; the lowering was quicker than planned in rep 4, and range held but for reps 7 and 9.',
    );
  });

  it('claims no control where verdicts are unclear', () => {
    expect(said([rows(times(8, { eccentric: 4 }), { uncertaintySeconds: 0.8 })], plan('4-0-1-0'))).toBe(
      'Delivered 32 of 32 planned lowering seconds in 8 reps; range held to the end.',
    );
  });

  it('says when control was lost at once, and how many reps are missing', () => {
    expect(said([rows(times(5, { eccentric: 1 }))], plan('4-0-1-0:8-10'))).toBe(
      'Delivered 5 of 20 planned lowering seconds in 5 of 8-10 planned reps; the lowering was quicker than planned from the first rep, and range held to the end.',
    );
  });

  it('gives reps and pace without a plan, in the words of the exercise', () => {
    expect(said([{ exercise: 'pulldown', side: 'both', reps: times(6, { eccentric: 2.5 }) }])).toBe(
      '6 reps, a typical return 2.5 s and pull 1.0 s; range held to the end.',
    );
    expect(said([rows(times(1), { uncertaintyDegrees: null })])).toBe(
      '1 rep, a typical lowering 2.0 s and pull 1.0 s.',
    );
  });

  it('tells where the tempo changed, beside the plan', () => {
    const raises = (slow: number): BoutPlan => ({
      exercise: 'lateral-raise',
      side: 'both',
      reps: [...times(slow, { eccentric: 5 }), ...times(6, { eccentric: 1, concentric: 0.6 })],
    });
    const stages = plan('5-0-1-0:8-10', '1-0-X-0:5-10');
    expect(said([raises(9)], stages)).toContain('the tempo changed after rep 9 as planned');
    expect(said([raises(6)], stages)).toContain('the tempo changed after rep 6 (planned: 8-10)');
    expect(said([raises(6)], stages)).toContain('the last controlled rep was rep 6');
  });

  it('tells both sides', () => {
    expect(
      said(
        [
          rows(times(6, { eccentric: 4 }), { side: 'left' }),
          rows(times(6, { eccentric: 3 }), { side: 'right', startSeconds: 60 }),
        ],
        plan('4-0-1-0:6'),
      ),
    ).toBe(
      'Left: delivered 24 of 24 planned lowering seconds in 6 reps, the lowering stayed controlled to the last rep, range held to the end; right: delivered 18 of 24 planned lowering seconds in 6 reps, the lowering was quicker than planned from the first rep, range held to the end.',
    );
  });

  it('tells a set with a rest inside', () => {
    expect(said([rows(times(5)), rows(times(3), { startSeconds: 40 })])).toBe(
      '8 reps in 2 bouts with rests between: 5 reps, a typical lowering 2.0 s and pull 1.0 s, range held to the end; then 3 reps, a typical lowering 2.0 s and pull 1.0 s, range held to the end.',
    );
  });

  it('names reps that do not count', () => {
    expect(said([rows([...times(4), { contracted: 55 }, {}, { complete: false }])])).toMatch(
      /^5 reps \(and 1 partial, 1 cut off by the film\), a typical/,
    );
    expect(said([rows([...times(4), { contracted: 50 }])])).toBe(
      '4 reps (and 1 failed), a typical lowering 2.0 s and pull 1.0 s; range held up to the lift that was not made.',
    );
    expect(said([rows([{ complete: false }])])).toBe('No complete rep (1 cut off by the film).');
  });

  it('says that nothing was found', () => {
    expect(headline([], findExercise('squat'))).toBe('No reps of the squat were found.');
  });

  it('leaves out a drop in a driving angle that lost nothing', () => {
    const { bouts } = score([rows(times(6))]);
    const bout = structuredClone(bouts[0]!);
    bout.summary.firstShortenedRep = 5;
    expect(headline([bout], findExercise('single-arm-row'))).toContain('range shortened from rep 5.');
  });
});
