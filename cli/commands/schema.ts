import type { Program } from './registration.js';

/** `tempofilm schema`: the JSON Schema of the set report, for programs that read it. */
export function registerSchema(program: Program): void {
  program
    .command('schema')
    .summary('print the JSON Schema of the set report')
    .description('Prints the JSON Schema (draft 2020-12) of what `analyze --format json` prints.')
    .addHelpText('after', EXAMPLES)
    .action(async () => {
      const { setReportJsonSchema } = await import('../../analysis/report/jsonSchema.js');
      process.stdout.write(`${JSON.stringify(setReportJsonSchema(), null, 2)}\n`);
    });
}

const EXAMPLES = `
Examples:
  tempofilm schema > set-report.schema.json`;
