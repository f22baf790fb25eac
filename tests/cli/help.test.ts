import type { CommandUnknownOpts } from '@commander-js/extra-typings';
import { describe, expect, it } from 'vitest';
import { buildProgram } from '../../cli/program.js';

function helpOf(command: CommandUnknownOpts): string {
  let text = '';
  command.configureOutput({
    writeOut: (part) => {
      text += part;
    },
  });
  command.outputHelp();
  return text;
}

/** The lines after "Examples:", each as the words a shell would pass on, without what explains them. */
function examplesOf(help: string): readonly (readonly string[])[] {
  const after = help.split('\nExamples:\n')[1] ?? '';
  return after
    .split('\n')
    .filter((line) => line.startsWith('  tempofilm '))
    .map((line) => line.trim().split(/\s{2,}| > /)[0]!)
    .map((line) => [...line.matchAll(/"([^"]*)"|(\S+)/g)].map((match) => match[1] ?? match[2]!));
}

const program = await buildProgram();

describe('the help', () => {
  it.each(program.commands.map((command) => [command.name(), command] as const))(
    'of %s has examples, and they name options that there are',
    (name, command) => {
      const examples = examplesOf(helpOf(command));
      expect(examples.length).toBeGreaterThan(0);
      expect(examples.some(([, used]) => used === name)).toBe(true);
      for (const [, used, ...parameters] of examples) {
        const shown = program.commands.find((candidate) => candidate.name() === used);
        expect(shown, used).toBeDefined();
        for (const parameter of parameters.filter((word) => word.startsWith('-'))) {
          const known = shown!.options.some(({ long, short }) => long === parameter || short === parameter);
          expect(known, `${used} ${parameter}`).toBe(true);
        }
      }
    },
  );

  it.each(program.commands.map((command) => [command.name(), command] as const))(
    'of %s is the same where no other command is loaded',
    async (name, command) => {
      const alone = (await buildProgram(name)).commands;
      expect(alone.map((one) => one.name())).toEqual([name]);
      expect(helpOf(alone[0]!)).toBe(helpOf(command));
    },
  );

  it('of a word that is no command is that of them all', async () => {
    for (const word of ['--help', 'analyse', 'constructor']) {
      expect((await buildProgram(word)).commands).toHaveLength(program.commands.length);
    }
  });

  it('of the program shows how to begin', () => {
    expect(examplesOf(helpOf(program)).map(([, used]) => used)).toContain('analyze');
  });
});
