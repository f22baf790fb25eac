import { expect, it } from 'vitest';
import { z } from 'zod';
import { parseValidatedYaml } from '../../../analysis/plan/validatedYaml.js';
import { Failure } from '../../../core/failure.js';

it('refuses a text nested too deeply in one line instead of exhausting the stack', () => {
  const deep = '['.repeat(20_000);
  expect(() => parseValidatedYaml(deep, z.unknown(), 'plan.yaml', 'Write it anew.')).toThrow(Failure);
});
