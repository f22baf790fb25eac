import { BaseSequencer, type TestSpecification } from 'vitest/node';

/** The files that take longest, longest first; the README's commands use what the demo films' tests measure. */
const LONGEST = [
  'end-to-end/demoFilms',
  'faults/fuzz',
  'core/media/corpus',
  'end-to-end/estimateTrack',
  'browser/setPage',
  'end-to-end/accelerator',
  'end-to-end/quickEvaluation',
  'end-to-end/drawings',
  'end-to-end/readme',
];

/** Starts the longest files first, so that both workers end at nearly the same time. */
export class LongestFirst extends BaseSequencer {
  override async sort(files: TestSpecification[]): Promise<TestSpecification[]> {
    const rank = ({ moduleId }: TestSpecification) => {
      const at = LONGEST.findIndex((name) => moduleId.endsWith(`tests/${name}.test.ts`));
      if (at >= 0) return at;
      // What starts processes or decodes films takes longer than what only computes.
      return LONGEST.length + (/tests\/(?:end-to-end|faults|browser|core\/media)\//.test(moduleId) ? 0 : 1);
    };
    return (await super.sort(files)).toSorted((one, other) => rank(one) - rank(other));
  }
}
