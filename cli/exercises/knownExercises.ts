import { existsSync } from 'node:fs';
import { join } from 'node:path';
import { CATALOGUE } from '../../analysis/exercises/catalogue.js';
import type { Exercise } from '../../analysis/exercises/exercise.js';
import { dataFolder } from '../folders.js';
import { readTextFile } from '../options/readTextFile.js';

/** Exercises of the user's own that are always known, in the data folder. */
const OWN_EXERCISES_FILE = 'exercises.yaml';

/**
 * The catalogue, the user's own exercises in the data folder, and those of a file named on the command line.
 *
 * @throws Failure (usage) where a file can't be read, with line and column of the fault.
 */
export async function knownExercises(file?: string | undefined): Promise<readonly Exercise[]> {
  const always = join(dataFolder(), OWN_EXERCISES_FILE);
  const files = [...(existsSync(always) ? [always] : []), ...(file === undefined ? [] : [file])];
  if (files.length === 0) return CATALOGUE;
  // Reading YAML takes longer to load than anything else here, and most people have no such file.
  const { parseCustomExercises } = await import('../../analysis/exercises/customExercises.js');
  const own: Exercise[] = [];
  for (const path of files) {
    own.push(...parseCustomExercises(await readTextFile(path, 'exercise file'), path));
  }
  return [...CATALOGUE, ...own];
}
