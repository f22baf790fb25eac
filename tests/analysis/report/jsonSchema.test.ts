import { Ajv2020 } from 'ajv/dist/2020.js';
import { describe, expect, it } from 'vitest';
import { parseStage } from '../../../analysis/plan/stage.js';
import { setReportJsonSchema } from '../../../analysis/report/jsonSchema.js';
import { setReportSchema } from '../../../analysis/report/setReport.js';
import { times } from '../scoring/syntheticBout.js';
import { sampleReport } from './sampleReport.js';

const plan = { stages: [parseStage('4-0-X-_:6-8')], restSeconds: 90 };
const report = sampleReport(
  [
    { exercise: 'single-arm-row', side: 'left', reps: times(6, { eccentric: 4 }) },
    { exercise: 'single-arm-row', side: 'right', reps: times(6, { eccentric: 3 }), startSeconds: 80 },
  ],
  plan,
);

describe('the published JSON Schema', () => {
  // Ajv, a validator that knows nothing of the definition the schema was made from (JSON Schema draft 2020-12).
  const validate = new Ajv2020({ strict: true, validateFormats: false }).compile(setReportJsonSchema());

  it('takes a scored report, and so does the definition', () => {
    expect(validate(report)).toBe(true);
    expect(setReportSchema.parse(report)).toEqual(report);
    expect(validate(JSON.parse(JSON.stringify(report)))).toBe(true);
  });

  it.each([
    ['another schema id', { ...report, schema: 'tempofilm.set/2' }],
    ['a missing headline', (({ headline: _, ...rest }) => rest)(report)],
    ['an unknown side', { ...report, bouts: [{ ...report.bouts[0]!, side: 'middle' }] }],
    ['a share above 1', withSummary({ deliveredLoweringShare: 1.2 })],
    ['a fractional rep', withSummary({ completeReps: 2.5 })],
    ['a rotation of 45 degrees', { ...report, film: { ...report.film, rotationDegrees: 45 } }],
  ])('refuses %s, and so does the definition', (_, broken) => {
    expect(validate(broken)).toBe(false);
    expect(setReportSchema.safeParse(broken).success).toBe(false);
  });

  function withSummary(changes: object) {
    const bout = report.bouts[0]!;
    return { ...report, bouts: [{ ...bout, summary: { ...bout.summary, ...changes } }] };
  }
});
