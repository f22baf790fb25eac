import { existsSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { Failure } from '../failure.js';

/**
 * The compiled file of this folder that a thread or process is to run, also when this module runs as source.
 *
 * @throws Failure 'installation' where it was not built.
 */
export function builtProgram(name: string): string {
  const folder = import.meta.url.endsWith('.ts') ? '../../dist/core/pose/' : './';
  const program = fileURLToPath(new URL(`${folder}${name}`, import.meta.url));
  if (existsSync(program)) return program;
  throw new Failure('installation', `${program} is missing.`, 'Run `npm run build` in the program’s folder.');
}
