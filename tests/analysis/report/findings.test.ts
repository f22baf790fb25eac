import { describe, expect, it } from 'vitest';
import { CATALOGUE, findExercise } from '../../../analysis/exercises/catalogue.js';
import type { Plan } from '../../../analysis/plan/plan.js';
import { parseStage } from '../../../analysis/plan/stage.js';
import { CAUTIONS } from '../../../analysis/report/cautions.js';
import { FINDING_CODES, finding } from '../../../analysis/report/findings.js';
import { setFindings } from '../../../analysis/report/setFindings.js';
import { findingSchema } from '../../../analysis/report/setReport.js';
import { type BoutPlan, score, times } from '../scoring/syntheticBout.js';

const plan = (...stages: string[]): Plan => ({ stages: stages.map(parseStage), restSeconds: null });

const codesOf = (bouts: readonly BoutPlan[], given: Plan | null = null) =>
  setFindings(score(bouts, { plan: given }).bouts, given);

const curls = (reps: BoutPlan['reps'], changes: Partial<BoutPlan> = {}): BoutPlan => ({
  exercise: 'curl',
  reps,
  side: 'both',
  ...changes,
});

describe('findings', () => {
  const facts = { framesPerSecond: 12, degreesOffSide: 52, slowMotionFactor: 4 };

  it.each(FINDING_CODES)(
    '%s: is a plain sentence for every exercise, with a remedy where it is a problem',
    (code) => {
      for (const exercise of CATALOGUE) {
        const said = finding(code, { exercise, ...facts });
        expect(findingSchema.safeParse(said).success).toBe(true);
        expect(said.message).toMatch(/^[A-Z].*\.$/);
        if (said.level === 'problem') expect(said.remedy).not.toBeNull();
        // Adherence is the lifter's own intention: nothing is praised or blamed.
        expect(`${said.message} ${said.remedy}`).not.toMatch(
          /\b(good|bad|better|worse|should|must|wrong form)\b(?! light)/i,
        );
      }
    },
  );

  it('puts the numbers where they belong', () => {
    const exercise = findExercise('squat');
    expect(finding('few-frames', { exercise, ...facts }).message).toContain('12 frames a second');
    expect(finding('view-too-oblique', { exercise, ...facts }).message).toContain('52°');
    expect(finding('slow-motion', { exercise, ...facts }).message).toContain('4 times');
    expect(finding('slow-motion', { exercise, ...facts, slowMotionFactor: 2.5 }).message).toContain(
      '2.5 times',
    );
  });
});

describe('setFindings', () => {
  it('finds nothing to add to a plain set', () => {
    expect(codesOf([curls(times(5))])).toEqual([]);
    expect(codesOf([curls(times(5))], plan('2-0-1-0:5'))).toEqual([]);
    expect(codesOf([])).toEqual([]);
  });

  it('asks about slow motion within the film, unless the plan has stages', () => {
    const reps = [...times(3), ...times(3, { eccentric: 8, concentric: 4 }), ...times(2)];
    expect(codesOf([curls(reps)])).toContain('speed-ramp');
    expect(codesOf([curls(reps)], plan('2-0-1-0:3', '8-0-4-0:5'))).not.toContain('speed-ramp');
  });

  it('names several bouts of one side, and not one of each side', () => {
    expect(codesOf([curls(times(5)), curls(times(4), { startSeconds: 60 })])).toEqual(['several-bouts']);
    expect(
      codesOf([curls(times(5), { side: 'left' }), curls(times(4), { side: 'right', startSeconds: 60 })]),
    ).toEqual([]);
  });

  it('names slower explosive lifts and quick eccentrics', () => {
    const slowing = [...times(3, { concentric: 0.6 }), ...times(2, { concentric: 1.8 })];
    expect(codesOf([curls(slowing)], plan('2-0-X-0'))).toEqual(['explosive-lift-slower']);
    expect(codesOf([curls(times(5))], plan('X-0-1-0'))).toEqual(['quick-eccentric-not-judged']);
  });

  it('warns where the film is too coarse for the tolerance', () => {
    expect(codesOf([curls(times(5), { uncertaintySeconds: 0.6 })], plan('2-_-1-_'))).toEqual([
      'verdicts-unclear',
    ]);
    // Phases that last to the very limit of the tolerance reach across it with whatever ± they have.
    const unclear = (count: number) => {
      const limit = times(count, { eccentric: 2.3, concentric: 1.3 });
      return codesOf([curls([...limit, ...times(5 - count)])], plan('2-_-1-_'));
    };
    expect(unclear(3)).toContain('verdicts-unclear');
    expect(unclear(2)).not.toContain('verdicts-unclear');
  });

  it('names planned partials and a lift that was not made', () => {
    const done = [...times(4), ...times(3, { eccentric: 1, contracted: 70 })];
    expect(codesOf([curls(done)], plan('2-0-1-0:4', '1-0-1-0:3:partials'))).toEqual(['partials-planned']);
    expect(codesOf([curls([...times(4), { contracted: 70 }])])).toEqual(['lift-not-made']);
  });
});

describe('cautions', () => {
  // What general guidance on resistance training asks for: stop at pain or unusual discomfort, safeties or a spotter,
  // no medical advice (college guidelines and ACSM pre-participation screening).
  it('say when to stop, to be spotted, and that this is no medical advice', () => {
    const text = CAUTIONS.join(' ');
    expect(text).toMatch(/stop if you feel pain, dizziness or chest discomfort/i);
    expect(text).toMatch(/safeties or have a spotter/);
    expect(text).toMatch(/not medical/);
    expect(text).toMatch(/coach or clinician/);
  });
});
