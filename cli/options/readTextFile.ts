import { readFile, stat } from 'node:fs/promises';
import { Failure } from '../../core/failure.js';

/** No plan and no list of exercises comes near this; a film named by mistake does. */
const LARGEST_BYTES = 1_000_000;

/**
 * Reads a small text file that the user named.
 *
 * @param what the file is, for the message ("plan").
 * @throws Failure (usage) where it is missing, a folder, too large for a text of this kind, or can't be read.
 */
export async function readTextFile(path: string, what: string): Promise<string> {
  try {
    const facts = await stat(path);
    if (facts.isDirectory()) throw new Failure('usage', `The ${what} ${path} is a folder.`, 'Name a file.');
    // A pipe nobody writes to would be waited for without end.
    if (!facts.isFile()) {
      throw new Failure('usage', `The ${what} ${path} is no ordinary file.`, 'Name a YAML or JSON file.');
    }
    if (facts.size > LARGEST_BYTES) {
      throw new Failure('usage', `The ${what} ${path} is too large to be one.`, 'Name a YAML or JSON file.');
    }
    return await readFile(path, 'utf8');
  } catch (error) {
    if (error instanceof Failure) throw error;
    const missing = (error as NodeJS.ErrnoException).code === 'ENOENT';
    throw new Failure(
      'usage',
      missing ? `There is no ${what} ${path}.` : `The ${what} ${path} can't be read.`,
      'Check the path.',
      error,
    );
  }
}
