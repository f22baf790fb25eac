import { findExercise } from '../../../analysis/exercises/catalogue.js';
import type { Plan } from '../../../analysis/plan/plan.js';
import { CAUTIONS, STILLNESS_IN_WORDS } from '../../../analysis/report/cautions.js';
import { headline } from '../../../analysis/report/headline.js';
import type { SetReport } from '../../../analysis/report/setReport.js';
import { SET_SCHEMA_ID } from '../../../analysis/report/setSchemaId.js';
import { type BoutPlan, score } from '../scoring/syntheticBout.js';

/** A whole report of invented bouts. */
export function sampleReport(bouts: readonly BoutPlan[], plan: Plan | null = null): SetReport {
  const exercise = findExercise(bouts[0]!.exercise);
  const scored = score(bouts, { plan, words: exercise.words });
  return {
    schema: SET_SCHEMA_ID,
    film: {
      file: 'row.mp4',
      recordedAt: '2026-03-02T18:04:11Z',
      durationSeconds: 62.4,
      width: 480,
      height: 640,
      frameRate: 29.97,
      variableFrameRate: false,
      slowMotionFactor: 1,
      rotationDegrees: 0,
      mirrored: false,
      framesInFilm: 1870,
      framesAnalyzed: 1012,
    },
    pose: { model: 'movenet-thunder', quality: 'standard', meanConfidence: 0.71 },
    exercise: {
      id: exercise.id,
      name: exercise.name,
      drivingAngle: exercise.drivingAngle,
      chosenBy: 'user',
    },
    plan: structuredClone(plan) as SetReport['plan'],
    bouts: [...scored.bouts],
    rests: [...scored.rests],
    symmetry: scored.symmetry,
    quality: { usable: true, findings: [] },
    headline: headline(scored.bouts, exercise, plan),
    method: { programVersion: '0.1.0', stillness: STILLNESS_IN_WORDS, cautions: [...CAUTIONS] },
    load: { value: 16, unit: 'kg' },
  };
}
