import { z } from 'zod';
import { setReportSchema } from './setReport.js';
import { SET_SCHEMA_ID } from './setSchemaId.js';

/**
 * The published JSON Schema (draft 2020-12) of the set report, made from the very definition that validates it.
 */
export function setReportJsonSchema(): Record<string, unknown> {
  return {
    ...z.toJSONSchema(setReportSchema, { target: 'draft-2020-12' }),
    title: SET_SCHEMA_ID,
    description:
      'What one film of a training set shows: bouts, reps and phases in real seconds, ranges in degrees by the neutral-zero method, held against the plan.',
  };
}
