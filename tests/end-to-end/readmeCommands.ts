import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { PROJECT } from './command.js';

/** The commands of the README's `sh` blocks, in order, each as the words a shell would pass on. */
export function readmeCommands(): readonly (readonly string[])[] {
  const readme = readFileSync(join(PROJECT, 'README.md'), 'utf8');
  return [...readme.matchAll(/^```sh\n([\s\S]*?)^```/gm)]
    .flatMap((block) => block[1]!.split('\n'))
    .map((line) => line.replace(/(^|\s)#.*$/, '').trim())
    .filter((line) => line !== '')
    .map(words);
}

/** Splits at spaces outside double quotes: the README uses nothing else of a shell. */
function words(line: string): string[] {
  return [...line.matchAll(/"([^"]*)"|(\S+)/g)].map((match) => match[1] ?? match[2]!);
}
